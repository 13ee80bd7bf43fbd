#pragma once

#include <optional>
#include <vector>

#include "rectify/pose_estimate.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// Homography through four or more matches by the normalised direct linear transform (Hartley and Zisserman,
/// algorithm 4.2). None where they are degenerate (three on a line, coinciding).
[[nodiscard]] std::optional<PhotoFromObject> homography_through(const std::vector<PlaneMatch>& matches);

/// Camera whose plane z = 0 has this homography, for a known focal length (Zhang, IEEE TPAMI 22(11), 2000,
/// section 3.1, with the nearest rotation). None where the plane would lie behind the camera.
[[nodiscard]] std::optional<CameraPose> pose_of(const PhotoFromObject& homography, const PosePriors& priors);

/// Camera over matched points of an object whose sides may be off by `object_relative_std` each, and so its
/// shape by the square root of two of that. Least squares on the points with the priors.
[[nodiscard]] PoseEstimate pose_from_matches(const std::vector<PlaneMatch>& matches,
                                             double object_relative_std, const PosePriors& priors);

}  // namespace ridgetally
