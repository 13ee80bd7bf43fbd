// Completion for zsh(1): one function a command, for _arguments of zshcompsys(1).
#include <sstream>

#include "cli/guides/command_guide.h"

namespace ridgetally::guides {
namespace {

/// Text within single quotes of the shell.
std::string single_quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

/// ":MESSAGE:ACTION" of a value.
std::string value_of(const Argument& argument) {
    if (argument.fill == Fill::nothing) return "";
    const bool positional = argument.value.empty();
    const std::string message = positional ? argument.spellings.front() : argument.value;
    std::string action = " ";
    if (argument.fill == Fill::file) action = "_files";
    if (argument.fill == Fill::choice) action = "(" + joined(argument.choices, " ") + ")";
    return ":" + escaped(message, ":[]\\") + ":" + action;
}

void write_command(std::ostream& out, const CommandGuide& command) {
    out << "_" << command.joined("_")
        << "() {\n    local context state line\n    typeset -A opt_args\n    _arguments -C";
    for (const auto& option : command.options)
        for (const auto& spelling : option.spellings)
            out << " \\\n        "
                << single_quoted((option.repeated ? "*" : "") + spelling + "[" +
                                 escaped(option.help, "[]:\\") + "]" + value_of(option));
    for (const auto& positional : command.positionals)
        out << " \\\n        " << single_quoted((positional.repeated ? "*" : "") + value_of(positional));
    if (command.commands.empty()) {
        out << "\n}\n\n";
        return;
    }
    out << " \\\n        '1:command:->command' '*::argument:->argument'\n    case $state in\n    command)\n"
        << "        local -a commands=(";
    for (const auto& below : command.commands)
        out << "\n            " << single_quoted(below.name() + ":" + escaped(below.help, ":\\"));
    out << ")\n        _describe command commands ;;\n    argument)\n        case $words[1] in\n";
    for (const auto& below : command.commands)
        out << "        " << below.name() << ") _" << below.joined("_") << " ;;\n";
    out << "        esac ;;\n    esac\n}\n\n";
}

}  // namespace

std::string zsh_completion(const CommandGuide& program) {
    std::ostringstream out;
    out << "#compdef ridgetally\n# Made from the program's own help.\n\n";
    for (const CommandGuide* command : every_command(program)) write_command(out, *command);
    out << "_ridgetally \"$@\"\n";
    return out.str();
}

}  // namespace ridgetally::guides
