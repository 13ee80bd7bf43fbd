#pragma once

#include "cli/exit_status.h"

namespace ridgetally {

/// The whole program on these arguments, as main got them.
[[nodiscard]] ExitStatus run_program(int argc, const char* const* argv);

}  // namespace ridgetally
