#pragma once

#include <opencv2/core.hpp>

#include "disc/disc_outline.h"
#include "disc/polar.h"
#include "image/pyramid.h"

namespace ridgetally {

/// The rounds near the rim as straight rows: columns run around the disc, rows from outside the rim towards
/// the centre; the rim is straightened, so that rows follow the rounds of an oval crown too.
struct RoundStrip {
    cv::Mat grey;                       ///< CV_32FC1, 0 to 255
    cv::Mat usable;                     ///< CV_8UC1, 255 where the photo shows it
    double px_per_mm = 0.0;             ///< across the rounds everywhere, along them at the rim
    double rim_row = 0.0;               ///< the rim's mean
    double rim_mm = 0.0;                ///< mean radius of the rim
    std::vector<double> rim_radius_mm;  ///< smoothed, one a column
    PhotoFromObject photo_from_plane;
    ObjectPoint centre_mm;

    [[nodiscard]] PhotoPoint photo_point(double column, double row) const;
};

struct RoundStripOptions {
    double px_per_mm = 3.0;
    double outside_mm = 6.0;  ///< beyond the rim; negative to begin inside
    double inside_mm = 40.0;  ///< from the rim inwards; cut off at the centre
    double true_at = 1.0;     ///< radius at which both directions have the same scale, of the rim's
};

[[nodiscard]] RoundStrip round_strip(const GreyPyramid& photo, const DiscOutline& outline,
                                     const RoundStripOptions& options);

}  // namespace ridgetally
