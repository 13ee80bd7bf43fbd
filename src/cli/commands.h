#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <map>
#include <string>

#include "cli/exit_status.h"

/// One file a command. Each function adds the command to the program and gives what runs it, to be called
/// after the arguments have been read and only if the command was named. The references stay valid as long as
/// the App.
namespace ridgetally {

using Command = std::function<ExitStatus()>;

[[nodiscard]] Command add_swatch_command(CLI::App& program);
[[nodiscard]] Command add_crown_command(CLI::App& program);
[[nodiscard]] Command add_piece_command(CLI::App& program);
[[nodiscard]] Command add_scale_command(CLI::App& program);
[[nodiscard]] Command add_hook_command(CLI::App& program);
[[nodiscard]] Command add_hat_command(CLI::App& program);
[[nodiscard]] Command add_yarn_needed_command(CLI::App& program);
[[nodiscard]] Command add_yarn_command(CLI::App& program);
[[nodiscard]] Command add_facts_command(CLI::App& program);
[[nodiscard]] Command add_serve_command(CLI::App& program);

/// All of the above by name, with the program's own options, description and examples: the whole command
/// line.
[[nodiscard]] std::map<std::string, Command> add_command_line(CLI::App& program);

}  // namespace ridgetally
