#pragma once

#include <string>

namespace ridgetally {

/// x with a fixed number of decimals, "." as the decimal point whatever the locale, no minus zero. Throws
/// std::logic_error for anything not finite: such a figure must never be printed.
[[nodiscard]] std::string fixed(double x, int decimals);

}  // namespace ridgetally
