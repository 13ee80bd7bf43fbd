#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "disc/polar.h"
#include "disc/round_curve.h"
#include "fabric/fabric_region.h"
#include "image/photo.h"

namespace ridgetally {

/// The surroundings of a disc's edge, unrolled: a column an angle, outermost row first.
struct RimStrip {
    PolarFrame frame;
    cv::Mat ycc;     ///< CV_8UC3
    cv::Mat mask;    ///< 255 where the first mask has fabric
    cv::Mat usable;  ///< 255 where the photo shows it, free of what lies on it
};

/// The strip about a first guess of the edge. `keep_out`, of the size of the region's mask, is 255 where the
/// edge is covered.
[[nodiscard]] RimStrip rim_strip(const Photo& photo, const FabricRegion& region, const cv::Mat& keep_out,
                                 const RoundCurve& curve, const PhotoFromObject& photo_from_plane,
                                 int angles);

/// For every column of the strip the first row of the disc. Shadows and tails beside the edge, seen apart
/// from it, are left out.
[[nodiscard]] std::vector<int> find_rim(const RimStrip& strip);

}  // namespace ridgetally
