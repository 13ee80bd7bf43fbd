#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/stitch.h"
#include "pipeline/measure_swatch.h"
#include "report/terms.h"

/// Values of options as people type them. Each function gives the value or throws CLI::ValidationError with
/// one line that says what was expected.
namespace ridgetally::values {

/// "sc-blo"; capitals and underscores are forgiven. The error for a UK or spelt-out name gives the keys.
[[nodiscard]] StitchFamily stitch(const std::string& text);
[[nodiscard]] Worked worked(const std::string& text);
[[nodiscard]] LengthUnit ruler_unit(const std::string& text);

/// Units and stitch names of the report.
[[nodiscard]] SizeUnit size_unit(const std::string& text);
[[nodiscard]] Terms terms(const std::string& text);

/// "X1,Y1,X2,Y2,LENGTH": two points in photo pixels and their distance, mm unless a unit is given.
[[nodiscard]] TwoPointScale two_points(const std::string& text);

/// "X,Y,X,Y,...": at least three corners that enclose an area, in photo pixels.
[[nodiscard]] std::vector<PhotoPoint> area(const std::string& text);

/// "0", "-10", "90deg": degrees.
[[nodiscard]] double degrees(const std::string& text);

/// "4x2" or "4 x 2": stitches by rows, each 1 to 200.
[[nodiscard]] PatternRepeat repeat(const std::string& text);

/// A length above zero, in mm.
[[nodiscard]] double length_mm(const std::string& text);

/// True length over nominal length: a number near 1, or "102:100" and "102/100" (what 100 on the tape really
/// is).
[[nodiscard]] double correction(const std::string& text);

/// A whole number of photos measured at the same time.
[[nodiscard]] std::size_t jobs(const std::string& text);

}  // namespace ridgetally::values
