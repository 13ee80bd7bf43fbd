#pragma once

#include "image/photo.h"
#include "scale/flat/quad.h"

namespace ridgetally {

/// Nearest and farthest a phone is held for such a photo (from the focus limit to an arm's length above a
/// table), which bounds the size at which an object is seen.
inline constexpr double nearest_mm = 100.0;
inline constexpr double farthest_mm = 1000.0;

/// Focal length and principal point of the upright photo; a main camera of 26 mm equivalent where the photo
/// does not tell (common practice, no source).
[[nodiscard]] ViewPriors view_priors(const Photo& photo);

/// The same for the photo reduced by `scale`, and a point of it back in the photo: pixel centres stay pixel
/// centres.
[[nodiscard]] ViewPriors scaled_view(const ViewPriors& view, double scale);
[[nodiscard]] cv::Point2d unscaled(const cv::Point2d& p, double scale);

}  // namespace ridgetally
