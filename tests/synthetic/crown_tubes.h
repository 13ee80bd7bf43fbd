#pragma once

#include "synthetic/crown_grid.h"
#include "synthetic/tubes.h"

namespace ridgetally::synthetic {

/// Every visible strand of a crown, as tubes over the table. `base_mm`: height of what it lies on.
[[nodiscard]] std::vector<Tube> crown_tubes(const Fabric& fabric, int yarn_index, double base_mm);

/// What is true of a crown, exactly, by construction.
struct CrownTruth {
    double diameter_mm = 0.0;      ///< of the circle with the area inside the yarn's outline from above,
                                   ///< tail and stray loops left out
    double diameter_min_mm = 0.0;  ///< smallest and largest distance of two parallel lines around it
    double diameter_max_mm = 0.0;
    int rounds = 0;
    std::vector<int> stitches;  ///< of each round, inner first
    std::vector<cv::Point2d> outline_mm;
};

[[nodiscard]] CrownTruth crown_truth(const Fabric& fabric);

}  // namespace ridgetally::synthetic
