#pragma once

#include <optional>

#include "image/photo.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// Height of a reference's face above the table.
struct FaceHeight {
    double mm = 0.0;
    double std_mm = 0.0;
};

/// Of a thickness that the maker read off a ruler's edge.
inline constexpr double told_thickness_std_mm = 0.3;

/// What kind of ruler it looks like decides how high its face lies: soft yellow tapes 0.4 mm, wood 3 to 4 mm,
/// steel and plastic 0.5 to 2.5 mm (common practice, no source). Only the colour is looked at, so the
/// uncertainty stays wide.
/// A thickness that was told goes before it.
[[nodiscard]] FaceHeight ruler_face_height(const Photo& photo, const ScaleReference& reference,
                                           const std::optional<double>& told_mm);

}  // namespace ridgetally
