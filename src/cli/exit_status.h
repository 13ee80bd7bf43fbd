#pragma once

#include "core/outcome.h"

namespace ridgetally {

/// Exit status of the program: 0, 2 for "could not be measured", otherwise as in sysexits.h (4.3BSD);
/// of a batch that was stopped, what a shell tells of a program ended by that signal: 128 and its number.
enum class ExitStatus {
    ok = 0,
    refused = 2,
    usage = 64,
    bad_data = 65,
    no_input = 66,
    internal = 70,
    io = 74,
    interrupted = 130,
    terminated = 143,
};

/// Which status a refusal ends in: files that cannot be read or are no photos have their own.
[[nodiscard]] ExitStatus status_of(const Refusal& refusal);

/// Of two results of one run, the one that the status of the whole run tells: the program's own faults before
/// those of files, and those before photos that could not be measured.
[[nodiscard]] ExitStatus worse_of(ExitStatus a, ExitStatus b);

}  // namespace ridgetally
