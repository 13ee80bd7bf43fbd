// Completion for bash(1): a function that finds the command typed so far and offers what it takes.
#include <sstream>

#include "cli/guides/command_guide.h"

namespace ridgetally::guides {
namespace {

constexpr const char* head = R"(# Completion of ridgetally for bash, made from the program's own help.
_ridgetally() {
    local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
    local command=ridgetally word options='' words='' files=''
    COMPREPLY=()
    for word in "${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
        case "$command $word" in
)";

constexpr const char* tail = R"(    esac
    if [[ $current == -* ]]; then words=$options files=''; fi
    if [[ $files ]]; then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$current")
    else
        mapfile -t COMPREPLY < <(compgen -W "$words" -- "$current")
    fi
}
complete -F _ridgetally ridgetally
)";

/// What is offered once `argument` has been named and wants its value.
std::string value_of(const Argument& argument) {
    if (argument.fill == Fill::file) return "files=yes";
    return "words='" + joined(argument.choices, " ") + "'";
}

void write_values(std::ostream& out, const CommandGuide& command) {
    for (const auto& option : command.options) {
        if (option.fill == Fill::nothing) continue;
        std::string patterns;
        for (const auto& spelling : option.spellings)
            patterns += (patterns.empty() ? "\"" : "|\"") + command.joined(" ") + " " + spelling + "\"";
        out << "        " << patterns << ") options='' " << value_of(option) << " ;;\n";
    }
}

/// What is offered where a new argument begins.
void write_arguments(std::ostream& out, const CommandGuide& command) {
    std::vector<std::string> options;
    std::vector<std::string> words;
    for (const auto& option : command.options)
        options.insert(options.end(), option.spellings.begin(), option.spellings.end());
    for (const auto& below : command.commands) words.push_back(below.name());
    bool files = false;
    for (const auto& positional : command.positionals) {
        files = files || positional.fill == Fill::file;
        words.insert(words.end(), positional.choices.begin(), positional.choices.end());
    }
    out << "        \"" << command.joined(" ") << " \"*) options='" << joined(options, " ") << "' words='"
        << joined(words, " ") << "'" << (files ? " files=yes" : "") << " ;;\n";
}

}  // namespace

std::string bash_completion(const CommandGuide& program) {
    const auto commands = every_command(program);
    std::ostringstream out;
    out << head;
    for (const CommandGuide* command : commands)
        if (command != &program)
            out << "            \"" << command->joined(" ") << "\") command+=\" $word\" ;;\n";
    out << "        esac\n    done\n    case \"$command $before\" in\n";
    for (const CommandGuide* command : commands) write_values(out, *command);
    // The longest path first: "ridgetally yarn add" also begins with "ridgetally yarn".
    for (auto command = commands.rbegin(); command != commands.rend(); ++command)
        write_arguments(out, **command);
    out << tail;
    return out.str();
}

}  // namespace ridgetally::guides
