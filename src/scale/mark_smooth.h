#pragma once

#include <vector>

#include "scale/ruler_line.h"

namespace ridgetally {

/// The line's marks, with place and lean averaged over their neighbours where a single mark's noise is more
/// than a fiftieth of the spacing (fine marks in a small photo). Elsewhere they stay as measured.
[[nodiscard]] std::vector<MeasuredMark> settled_marks(const RulerLine& line);

}  // namespace ridgetally
