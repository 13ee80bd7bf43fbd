#pragma once

#include <opencv2/core.hpp>
#include <optional>

#include "core/geometry.h"
#include "fabric/fabric_region.h"

namespace ridgetally {

/// The fabric laid flat: a rectified grey picture whose pixels are squares of known size on the fabric's
/// plane.
struct FabricPatch {
    cv::Mat grey;            ///< CV_32FC1, 0 to 255
    cv::Mat mask;            ///< CV_8UC1, 255 where there is fabric to measure
    double px_per_mm = 0.0;  ///< of this picture, by construction
    PhotoFromRectified photo_from_rectified;
};

/// From what patches are cut: the photo's grey picture, the fabric in it, and the plane the fabric lies in.
struct PatchSource {
    cv::Mat photo_grey;  ///< CV_8UC1
    FabricRegion region;
    PhotoFromObject photo_from_plane;
};

struct PatchOptions {
    double rotation_rad =
        0.0;  ///< the patch's x axis runs along this direction of the object plane, clockwise
    double px_per_mm = 4.0;
    int most_side_px = 900;  ///< a larger fabric is cut to its middle
};

/// Cuts the fabric out of the photo and lays it flat. None where nothing of it can be seen (a plane edge-on).
[[nodiscard]] std::optional<FabricPatch> cut_patch(const PatchSource& source, const PatchOptions& options);

/// Direction of the object plane that a direction in the photo (degrees, clockwise, at `at`) belongs to,
/// radians.
[[nodiscard]] double plane_direction_rad(const PhotoFromObject& photo_from_plane, const PhotoPoint& at,
                                         double photo_deg);

/// Middle of the fabric in the photo.
[[nodiscard]] PhotoPoint middle_of(const FabricRegion& region);

}  // namespace ridgetally
