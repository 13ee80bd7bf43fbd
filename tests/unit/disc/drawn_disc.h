#pragma once

#include <opencv2/core.hpp>

#include "fabric/fabric_region.h"
#include "image/photo.h"

namespace ridgetally::test {

/// A busy round thing on an even table, seen straight from above, with its edge known to a tenth of a pixel.
struct DrawnDisc {
    cv::Size size{900, 700};
    cv::Point2d centre{450.0, 350.0};
    double radius_px = 240.0;
    double scallop_px = 0.0;  ///< of the edge
    int scallops = 40;
    double tail_px = 0.0;  ///< length of a tail that leaves to the right
    double loop_px = 0.0;  ///< radius of a loop that sticks out at the bottom
    cv::Scalar yarn{90, 60, 170};
    cv::Scalar table{205, 210, 212};
    double shadow_px = 0.0;    ///< width of a shadow on the left
    double contact_px = 0.0;   ///< width of a darker one all round
    double holes_px = 0.0;     ///< height of the holes between the posts of the last round: shaded table
    double arc_tail_px = 0.0;  ///< clear gap between the edge and a tail that lies along 70 degrees of it
    unsigned long long seed = 1;
};

[[nodiscard]] Photo drawn(const DrawnDisc& disc);

/// Where the disc with its loose ends is: what find_fabric would give.
[[nodiscard]] FabricRegion region_of(const DrawnDisc& disc);

/// One millimetre is `px_per_mm` pixels, straight from above.
[[nodiscard]] PhotoFromObject straight_down(double px_per_mm);

}  // namespace ridgetally::test
