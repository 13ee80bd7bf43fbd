#include "cli/settings.h"

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

#include "report/table.h"

namespace ridgetally {
namespace {

std::optional<std::string> environment(const char* name) {
    const char* value = std::getenv(name);
    if (value == nullptr || *value == '\0') return std::nullopt;
    return value;
}

Refusal fault(const std::filesystem::path& file, const std::string& what) {
    return {"settings", "bad-settings", file.string() + ": " + what,
            "Mend the file, as in {\"hooks\": \"4, 4.5, 5\"}, or remove it."};
}

std::optional<std::string> hooks_of(const nlohmann::json& value) {
    if (value.is_string()) return value.get<std::string>();
    if (!value.is_array()) return std::nullopt;
    std::string list;
    for (const auto& hook : value) {
        if (!hook.is_number()) return std::nullopt;
        list += (list.empty() ? "" : ",") + plain_number(hook.get<double>());
    }
    return list;
}

}  // namespace

std::optional<std::filesystem::path> settings_file() {
    if (const auto told = environment("RIDGETALLY_SETTINGS")) return *told;
    const std::filesystem::path name = std::filesystem::path("ridgetally") / "settings.json";
    if (const auto folder = environment("XDG_CONFIG_HOME")) return *folder / name;
    if (const auto home = environment("HOME")) return std::filesystem::path(*home) / ".config" / name;
    return std::nullopt;
}

Outcome<Settings> load_settings() {
    Settings settings;
    const auto file = settings_file();
    if (!file) return settings;
    std::ifstream stream(*file);
    if (!stream) return settings;
    const auto document = nlohmann::json::parse(stream, nullptr, false);
    if (!document.is_object()) return fault(*file, "is no JSON object");
    for (const auto& [key, value] : document.items()) {
        if (key != "hooks") return fault(*file, "\"" + key + "\" is no setting; known is \"hooks\"");
        settings.hooks = hooks_of(value);
        if (!settings.hooks) return fault(*file, "\"hooks\" must be a text or a list of mm");
    }
    return settings;
}

}  // namespace ridgetally
