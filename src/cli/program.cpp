#include "cli/program.h"

#include <CLI/CLI.hpp>
#include <exception>
#include <map>
#include <new>
#include <sstream>
#include <string>

#include "cli/commands.h"
#include "cli/streams.h"

namespace ridgetally {
namespace {

constexpr const char* description =
    "Ridgetally measures crochet gauge from a photo of a swatch beside a ruler: stitches and rows over 10 cm "
    "and over "
    "4 in, each with its plus-or-minus. It works on this computer only; no photo leaves it.";

constexpr const char* footer = R"(Examples:
  ridgetally swatch swatch.jpg
  ridgetally crown crown.jpg
  ridgetally piece hat.jpg
  ridgetally scale ruler.jpg
  ridgetally hook --have 12.5x15 --want 13x16 --hook 5.5mm
  ridgetally hat --head 56cm --gauge 14x16 --stitch sc
  ridgetally yarn add "Fennelwick DK, Moss"
  ridgetally serve --lan
  ridgetally swatch --help)";

/// Help and version end well and go to standard output; anything else is one line on standard error.
ExitStatus answer(const CLI::App& program, const CLI::ParseError& stop) {
    if (stop.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
        std::ostringstream out;
        program.exit(stop, out, out);
        return write_output(out.str());
    }
    std::string where = "ridgetally";
    for (auto named = program.get_subcommands(); !named.empty(); named = named.front()->get_subcommands())
        where += " " + named.front()->get_name();
    std::string what = stop.what();
    for (char& c : what) c = c == '\n' ? ' ' : c;
    complain(what + " (see " + where + " --help)");
    return ExitStatus::usage;
}

ExitStatus run_commands(int argc, const char* const* argv) {
    CLI::App program;
    const auto commands = add_command_line(program);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& stop) {
        return answer(program, stop);
    }
    return commands.at(program.get_subcommands().front()->get_name())();
}

}  // namespace

std::map<std::string, Command> add_command_line(CLI::App& program) {
    program.name("ridgetally");
    program.description(description);
    program.set_version_flag("--version", "ridgetally " RIDGETALLY_VERSION);
    program.footer(footer);
    program.require_subcommand(1);
    return {{"swatch", add_swatch_command(program)},
            {"crown", add_crown_command(program)},
            {"piece", add_piece_command(program)},
            {"scale", add_scale_command(program)},
            {"hook", add_hook_command(program)},
            {"hat", add_hat_command(program)},
            {"yarn-needed", add_yarn_needed_command(program)},
            {"yarn", add_yarn_command(program)},
            {"facts", add_facts_command(program)},
            {"serve", add_serve_command(program)}};
}

ExitStatus run_program(int argc, const char* const* argv) {
    try {
        return run_commands(argc, argv);
    } catch (const std::bad_alloc&) {
        complain("not enough memory for this photo");
    } catch (const std::exception& fault) {
        complain(std::string("fault of the program: ") + fault.what());
    }
    return ExitStatus::internal;
}

}  // namespace ridgetally
