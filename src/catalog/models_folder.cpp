#include <cstdlib>
#include <system_error>

#include "catalog/catalog.h"

namespace ridgetally {

std::filesystem::path models_folder() {
    if (const char* told = std::getenv("RIDGETALLY_MODELS"); told != nullptr && *told != '\0') return told;
    std::error_code fault;
    const auto executable = std::filesystem::read_symlink("/proc/self/exe", fault);
    if (!fault) {
        auto installed = executable.parent_path().parent_path() / "share" / "ridgetally" / "models";
        if (std::filesystem::is_directory(installed, fault)) return installed;
    }
    return RIDGETALLY_MODELS_SOURCE;
}

}  // namespace ridgetally
