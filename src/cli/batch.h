#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "cli/exit_status.h"

namespace ridgetally {

/// What one photo of a batch comes to.
struct BatchLine {
    std::string text;  ///< one line, with its newline
    ExitStatus status = ExitStatus::ok;
};

struct BatchOptions {
    std::size_t jobs = 1;  ///< photos measured at the same time
};

/// Calls `work(i)` for every i below `count`, on several threads, and writes the lines to standard output in
/// the order of i, each as soon as those before it are written. `work` must not throw. Stops taking up work
/// once standard output fails. Gives the worst status of all. SIGINT or SIGTERM let what was taken up end
/// and its lines be written; a second one ends the program at once.
[[nodiscard]] ExitStatus run_batch(std::size_t count, const BatchOptions& options,
                                   const std::function<BatchLine(std::size_t)>& work);

}  // namespace ridgetally
