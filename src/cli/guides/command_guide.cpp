#include "cli/guides/command_guide.h"

#include <algorithm>
#include <iterator>
#include <sstream>

namespace ridgetally::guides {
namespace {

/// "flat|round" as its parts; empty for a value that is described otherwise.
std::vector<std::string> choices_of(const std::string& value) {
    if (value.find('|') == std::string::npos) return {};
    std::vector<std::string> choices;
    std::istringstream parts(value);
    for (std::string part; std::getline(parts, part, '|');) {
        if (part.empty() || part.find_first_of(" :[]") != std::string::npos) return {};
        choices.push_back(part);
    }
    return choices;
}

/// The help calls whatever names a file FILE or FOLDER, and photos PHOTO.
bool names_a_file(const std::string& value) {
    return value.starts_with("FILE") || value == "FOLDER" || value.starts_with("PHOTO");
}

Argument argument_of(const CLI::Option& option) {
    Argument argument;
    for (const auto& letter : option.get_snames()) argument.spellings.push_back("-" + letter);
    for (const auto& word : option.get_lnames()) argument.spellings.push_back("--" + word);
    argument.value = option.get_type_name();
    if (option.get_positional()) argument.spellings = {option.get_name(true)};
    const bool takes_value = option.get_items_expected_max() > 0;
    if (!takes_value) argument.value.clear();
    const std::string named = option.get_positional() ? argument.spellings.front() : argument.value;
    argument.choices = choices_of(argument.value);
    if (takes_value)
        argument.fill = !argument.choices.empty() ? Fill::choice
                        : names_a_file(named)     ? Fill::file
                                                  : Fill::word;
    argument.help = option.get_description();
    argument.group = option.get_group();
    argument.required = option.get_required();
    argument.repeated = option.get_items_expected_max() > 1;
    return argument;
}

CommandGuide guide_of(const CLI::App& command, std::vector<std::string> path) {
    CommandGuide guide;
    guide.path = std::move(path);
    guide.help = command.get_description();
    guide.footer = command.get_footer();
    for (const CLI::Option* option : command.get_options()) {
        if (option->get_group().empty()) continue;  // hidden in the help as well
        (option->get_positional() ? guide.positionals : guide.options).push_back(argument_of(*option));
    }
    for (const CLI::App* below : command.get_subcommands([](const CLI::App*) { return true; })) {
        auto longer = guide.path;
        longer.push_back(below->get_name());
        guide.commands.push_back(guide_of(*below, std::move(longer)));
    }
    return guide;
}

}  // namespace

std::string CommandGuide::joined(const std::string& separator) const {
    return guides::joined(path, separator);
}

CommandGuide command_guide(const CLI::App& program) { return guide_of(program, {program.get_name()}); }

std::vector<const CommandGuide*> every_command(const CommandGuide& root) {
    std::vector<const CommandGuide*> all = {&root};
    for (const auto& command : root.commands)
        std::ranges::copy(every_command(command), std::back_inserter(all));
    return all;
}

std::string usage(const CommandGuide& command) {
    std::string line = command.joined(" ") + " [OPTIONS]";
    for (const auto& positional : command.positionals) {
        const std::string name = positional.spellings.front() + (positional.repeated ? "..." : "");
        line += positional.required ? " " + name : " [" + name + "]";
    }
    return line + (command.commands.empty() ? "" : " COMMAND");
}

std::string escaped(const std::string& text, const std::string& special) {
    std::string out;
    for (const char c : text) {
        if (special.find(c) != std::string::npos) out += '\\';
        out += c;
    }
    return out;
}

std::string joined(const std::vector<std::string>& words, const std::string& separator) {
    std::string out;
    for (const auto& word : words) out += (out.empty() ? "" : separator) + word;
    return out;
}

}  // namespace ridgetally::guides
