#pragma once

#include <string_view>

#include "cli/exit_status.h"

namespace ridgetally {

/// To be called first thing in main. A standard stream that the caller closed is put on /dev/null such that
/// writing to it fails, so that no file opened later takes its number; a reader that went away makes writes
/// fail instead of ending the program.
void guard_standard_streams();

/// Writes all of `text` to standard output: ok, or io where it is closed, full or its reader is gone.
[[nodiscard]] ExitStatus write_output(std::string_view text);

/// "ridgetally: TEXT" and a newline on standard error.
void complain(std::string_view text);

/// Text on standard error as it stands; failing to write there is nobody's business.
void write_error(std::string_view text);

[[nodiscard]] bool error_is_a_terminal();

}  // namespace ridgetally
