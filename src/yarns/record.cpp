#include "yarns/record.h"

#include <sys/stat.h>

#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "yarns/fault.h"
#include "yarns/schema.h"
#include "yarns/sql/database.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

/// Makes the folder for the owner alone, as the XDG Base Directory Specification asks.
Outcome<fs::path> folder_of(const fs::path& file) {
    const fs::path folder = file.parent_path();
    std::error_code fault;
    if (fs::is_directory(folder, fault)) return folder;
    if (folder.has_parent_path()) fs::create_directories(folder.parent_path(), fault);
    if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST) {
        return Refusal{record_stage, "io",
                       folder.string() + ": the folder of the record cannot be made: " +
                           std::generic_category().message(errno),
                       "name another file with --record"};
    }
    return folder;
}

Refusal no_ordinary_file(const std::string& path) {
    return {record_stage, "io", path + ": the record cannot be opened: it is no ordinary file",
            "check the path and the rights of the folder"};
}

}  // namespace

Record::Record(std::string path, std::unique_ptr<sql::Database> database)
    : path_(std::move(path)), database_(std::move(database)) {}
Record::Record(Record&& other) noexcept = default;
Record& Record::operator=(Record&& other) noexcept = default;
Record::~Record() = default;

Outcome<Record> Record::in_memory(const std::string& path) {
    auto database = std::make_unique<sql::Database>();
    const auto version = bring_up_to_date(*database, "");
    if (!version) return version.refusal();
    return Record(path, std::move(database));
}

Outcome<Record> Record::open(const std::string& path, Access access, const RecordOptions& options) {
    return guarded(path, [&]() -> Outcome<Record> {
        // Whole paths only: SQLite gives some short names a meaning of their own.
        const fs::path file = fs::absolute(path);
        std::error_code ignored;
        const fs::file_type type = fs::status(file, ignored).type();
        const bool missing = type == fs::file_type::not_found;
        if (!missing && type != fs::file_type::regular) return no_ordinary_file(path);
        if (missing && access == Access::look) return in_memory(path);
        if (missing) {
            if (const auto folder = folder_of(file); !folder) return folder.refusal();
        }
        auto database = std::make_unique<sql::Database>(
            file.string(), missing ? sql::Missing::is_made : sql::Missing::fails, options.busy_timeout_ms);
        const auto version = bring_up_to_date(*database, file.string());
        if (!version) return version.refusal();
        return Record(path, std::move(database));
    });
}

}  // namespace ridgetally
