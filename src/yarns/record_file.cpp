#include <cstdlib>
#include <filesystem>

#include "yarns/fault.h"
#include "yarns/record.h"

namespace ridgetally {
namespace {

/// The value of a variable of the environment; empty where it is not set.
std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr ? value : "";
}

}  // namespace

Outcome<std::string> usual_record_file() {
    if (std::string told = environment("RIDGETALLY_RECORD"); !told.empty()) return told;
    const auto inside = [](const std::filesystem::path& data) {
        return (data / "ridgetally" / "record.db").string();
    };
    if (const std::filesystem::path data = environment("XDG_DATA_HOME"); data.is_absolute())
        return inside(data);
    if (const std::filesystem::path home = environment("HOME"); home.is_absolute())
        return inside(home / ".local" / "share");
    return Refusal{record_stage, "no-record-folder", "there is no home folder to keep the record in",
                   "name the file with --record or RIDGETALLY_RECORD"};
}

}  // namespace ridgetally
