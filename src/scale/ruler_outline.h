#pragma once

#include <vector>

#include "core/geometry.h"
#include "scale/ruler_line.h"

namespace ridgetally {

/// How far the body of a rule reaches from its marks: office rulers 30 to 40 mm, quilting rulers more (common
/// practice, no source).
inline constexpr double widest_body_mm = 65.0;

/// Polygon around the body of the ruler the line is printed on: its edges where the photo shows steps along
/// most of the line, otherwise the marks with room for numerals. `mm_per_index` turns spacings into
/// millimetres.
[[nodiscard]] std::vector<PhotoPoint> ruler_outline(const GreyPyramid& pyramid, const RulerLine& line,
                                                    double mm_per_index);

}  // namespace ridgetally
