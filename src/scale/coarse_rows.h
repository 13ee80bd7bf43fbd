#pragma once

#include <vector>

#include "core/geometry.h"
#include "image/pyramid.h"

namespace ridgetally {

/// Edges or bold marks at even spacing along a straight line: what the centimetres of a scale look like from
/// afar. Text, keys and tiles look so too; only the later stages tell.
struct CoarseRow {
    PhotoPoint origin;      ///< on the row
    double axis_rad = 0.0;  ///< direction of the row, modulo pi
    std::vector<double>
        at_px;               ///< places of the edges along the axis from the origin, photo pixels, ascending
    std::vector<int> index;  ///< which division each is: gaps are edges that were not seen
    double pitch_px = 0.0;   ///< median spacing, photo pixels
    double score = 0.0;      ///< edges seen, less those missing or in between
};

/// Finds rows of five and more such edges in any direction, best first. One small picture of the photo is
/// searched: edges less than eleven of its pixels apart are left to the ordinary reader.
[[nodiscard]] std::vector<CoarseRow> find_coarse_rows(const GreyPyramid& pyramid);

}  // namespace ridgetally
