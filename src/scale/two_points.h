#pragma once

#include "core/outcome.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// Two points marked by hand and their true distance: a line of two marks without direction. Nothing is known
/// of the object, so object_relative_std is that of setting the points: half a pixel each (standard
/// deviation). Refuses with "points-too-close" where the points are less than 20 px apart (10 % from setting
/// them alone). Throws std::invalid_argument for a length that is not positive.
[[nodiscard]] Outcome<ScaleReference> two_points_reference(const PhotoPoint& from_px, const PhotoPoint& to_px,
                                                           double length_mm);

}  // namespace ridgetally
