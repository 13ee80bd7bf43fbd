#pragma once

#include <string>

#include "core/decimal.h"
#include "core/measured.h"

namespace ridgetally {

/// x rounded to six significant digits, so that documents of the same photo have the same bytes whatever the
/// last bits of a sum are. Throws std::logic_error for anything not finite: such a figure must never be
/// printed.
[[nodiscard]] double rounded(double x);

/// Half the width of the 95 % interval, rounded up to `decimals` so that it is never understated, at least
/// one unit of the last decimal; "0" for a value known exactly.
[[nodiscard]] std::string half_width(const Measured& x, int decimals);

/// "18.2 ± 0.3": value and half width of the 95 % interval.
[[nodiscard]] std::string with_plus_minus(const Measured& x, int decimals);

/// A figure for the gauge line of a pattern: the nearest half that lies within the 95 % interval (patterns
/// are written in whole and half stitches, common practice), otherwise one decimal. "18", "18.5", "18.3".
[[nodiscard]] std::string pattern_figure(const Measured& x);

/// The gauge over 4 inches from the gauge over 10 cm: times 101.6/100, the two are never mixed.
[[nodiscard]] Measured per_4in(const Measured& per_10cm);

}  // namespace ridgetally
