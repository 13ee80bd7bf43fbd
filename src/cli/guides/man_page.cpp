// A page in the macros of man(7), groff_man(7).
#include <sstream>

#include "cli/guides/command_guide.h"

namespace ridgetally::guides {
namespace {

/// Text as roff prints it unchanged: hyphens that can be copied, no line taken for a request.
std::string roff(const std::string& text) {
    std::string out;
    bool at_start = true;
    for (const char c : text) {
        if (at_start && (c == '.' || c == '\'')) out += "\\&";
        if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else
            out += c;
        at_start = c == '\n';
    }
    return out;
}

void write_argument(std::ostream& out, const Argument& argument) {
    out << ".TP\n\\fB" << roff(joined(argument.spellings, ", ")) << "\\fR";
    if (!argument.value.empty()) out << " \\fI" << roff(argument.value) << "\\fR";
    out << "\n" << roff(argument.help) << "\n";
}

void write_options(std::ostream& out, const CommandGuide& command) {
    for (const auto& positional : command.positionals) write_argument(out, positional);
    std::string group = "Options";
    for (const auto& option : command.options) {
        if (option.group != group) out << ".PP\n" << roff(option.group) << ":\n";
        group = option.group;
        write_argument(out, option);
    }
}

/// Lines as they stand: examples and tables.
void write_verbatim(std::ostream& out, const std::string& text) {
    out << ".PP\n.nf\n" << roff(text) << "\n.fi\n";
}

}  // namespace

std::string man_page(const CommandGuide& program, const std::string& version) {
    std::ostringstream out;
    out << ".TH "
        << "RIDGETALLY 1 \"\" \"" << roff(version) << "\" \"User commands\"\n"
        << ".SH NAME\nridgetally \\- measures crochet gauge from a photo\n.SH SYNOPSIS\n";
    for (const auto& command : program.commands) {
        if (&command != &program.commands.front()) out << ".br\n";
        out << roff(usage(command)) << "\n";
    }
    out << ".SH DESCRIPTION\n" << roff(program.help) << "\n.SH OPTIONS\n";
    write_options(out, program);
    write_verbatim(out, program.footer);
    out << ".SH COMMANDS\n";
    for (const CommandGuide* command : every_command(program)) {
        if (command == &program) continue;
        out << ".SS " << roff(usage(*command)) << "\n" << roff(command->help) << ".\n";
        write_options(out, *command);
        if (!command->footer.empty()) write_verbatim(out, command->footer);
    }
    return out.str();
}

}  // namespace ridgetally::guides
