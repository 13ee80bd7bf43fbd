#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "scale/flat/quad.h"

namespace ridgetally {

/// What a quadrilateral must look like to be the object.
struct QuadTarget {
    double aspect = 1.0;            ///< longer over shorter side
    double aspect_tolerance = 0.1;  ///< relative
    double cosine_tolerance = 0.1;
    double focal_tolerance = 0.0;  ///< relative; changes the shape by its product with sin^2 of the tilt
    double most_tilt_deg = 40.0;   ///< beyond it, sides shrink and blur; no photo for measuring is taken so
    double least_side_px = 30.0;   ///< below it corners are worse than 1 % of the side
};

/// Quadrilaterals made of long straight edges of the picture (any of its colour channels) that could be the
/// object, side 0-1 the longer one, best covered by edges first, at most `most`.
[[nodiscard]] std::vector<Quad> quad_candidates(const cv::Mat& bgr, const ViewPriors& view,
                                                const QuadTarget& target, std::size_t most);

/// Does the shape fit the target, side 0-1 being the longer one?
[[nodiscard]] bool fits(const Quad& quad, const ViewPriors& view, const QuadTarget& target);

}  // namespace ridgetally
