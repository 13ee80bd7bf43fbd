#pragma once

#include <string>
#include <vector>

#include "advice/crown_checks.h"

/// Values of the options on crowns and pieces as people type them; see values.h.
namespace ridgetally::values {

/// "16cm": that length, give or take single_length_tolerance; "6..6.5in": from one length to the other, where
/// a first length without a unit has that of the second.
[[nodiscard]] LengthRange length_range(const std::string& text);

/// "4cm,6.4cm,8.8cm": lengths above zero, in mm, parted by commas.
[[nodiscard]] std::vector<double> lengths_mm(const std::string& text);

/// A whole number of stitches, 1 to 2000.
[[nodiscard]] int stitch_count(const std::string& text);

}  // namespace ridgetally::values
