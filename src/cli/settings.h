#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/outcome.h"

namespace ridgetally {

/// What a maker has told once and for all.
struct Settings {
    std::optional<std::string> hooks;  ///< the maker's own hooks, as --hooks takes them
};

/// The maker's file: the environment variable RIDGETALLY_SETTINGS where it is set, else
/// ridgetally/settings.json in the folder of XDG_CONFIG_HOME, else in ~/.config (XDG Base Directory
/// Specification). None where neither is known.
[[nodiscard]] std::optional<std::filesystem::path> settings_file();

/// Reads the file; no file means no settings. `{"hooks": "4, 4.5, 5"}` or `{"hooks": [4, 4.5, 5]}`. Refusal:
/// stage "settings", code "bad-settings", with file and key.
[[nodiscard]] Outcome<Settings> load_settings();

}  // namespace ridgetally
