#pragma once

#include "image/photo.h"
#include "scale/flat/quad.h"

namespace ridgetally {

/// Focal length and principal point of the upright photo; a main camera of 26 mm equivalent where the photo
/// does not tell (common practice, no source).
[[nodiscard]] ViewPriors view_priors(const Photo& photo);

/// The same for the photo reduced by `scale`, and a point of it back in the photo: pixel centres stay pixel
/// centres.
[[nodiscard]] ViewPriors scaled_view(const ViewPriors& view, double scale);
[[nodiscard]] cv::Point2d unscaled(const cv::Point2d& p, double scale);

}  // namespace ridgetally
