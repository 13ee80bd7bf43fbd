// Completion for fish(1): one line an option.
#include <sstream>

#include "cli/guides/command_guide.h"

namespace ridgetally::guides {
namespace {

std::string single_quoted(const std::string& text) { return "'" + escaped(text, "'\\") + "'"; }

/// True in the shell where the command has been typed, and none below it.
std::string condition(const CommandGuide& command) {
    std::string all;
    for (std::size_t i = 1; i < command.path.size(); ++i)
        all += (all.empty() ? "" : "; and ") + std::string("__fish_seen_subcommand_from ") + command.path[i];
    if (!command.commands.empty()) {
        all += (all.empty() ? "" : "; and ") + std::string("not __fish_seen_subcommand_from");
        for (const auto& below : command.commands) all += " " + below.name();
    }
    return single_quoted(all);
}

void write_option(std::ostream& out, const Argument& option) {
    for (const auto& spelling : option.spellings)
        out << (spelling.starts_with("--") ? " -l " + spelling.substr(2) : " -s " + spelling.substr(1));
    if (option.fill == Fill::file) out << " -r -F";
    if (option.fill == Fill::word) out << " -x";
    if (option.fill == Fill::choice) out << " -x -a " << single_quoted(joined(option.choices, " "));
    out << " -d " << single_quoted(option.help) << "\n";
}

}  // namespace

std::string fish_completion(const CommandGuide& program) {
    std::ostringstream out;
    out << "# Completion of ridgetally for fish, made from the program's own help.\ncomplete -c ridgetally "
           "-f\n";
    for (const CommandGuide* command : every_command(program)) {
        const std::string start = "complete -c ridgetally -n " + condition(*command);
        for (const auto& below : command->commands)
            out << start << " -a " << below.name() << " -d " << single_quoted(below.help) << "\n";
        for (const auto& option : command->options) {
            out << start;
            write_option(out, option);
        }
        for (const auto& positional : command->positionals)
            if (positional.fill == Fill::file) out << start << " -F\n";
    }
    return out.str();
}

}  // namespace ridgetally::guides
