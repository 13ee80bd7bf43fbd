#pragma once

#include "scale/coarse_rows.h"
#include "scale/ruler_line.h"

namespace ridgetally {

/// Divisions measured at full resolution, a centimetre each.
struct CoarseLine {
    RulerLine line;     ///< its marks are the divisions; their lean is the frame's
    double at_w = 0.0;  ///< where across the frame they were measured
    GraduationReading reading;
};

/// Either a line or why the row is none.
struct CoarseTrial {
    std::optional<CoarseLine> read;
    std::string rejected;
};

/// Measures a row of divisions and looks for ten fine marks to each.
[[nodiscard]] CoarseTrial read_coarse_line(const GreyPyramid& pyramid, const CoarseRow& row);

}  // namespace ridgetally
