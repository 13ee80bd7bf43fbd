#pragma once

#include <vector>

#include "core/outcome.h"
#include "disc/disc_outline.h"

namespace ridgetally {

/// What a rim marked by hand is good to, mm: about a strand of medium yarn (no source), all round alike,
/// since a hand marks all of it by the same rule.
inline constexpr double told_rim_std_mm = 1.0;

/// The outline through points that the maker set on the rim, in any order; between two of them the distance
/// from the middle changes evenly with the angle, so that few points make a circle. Refuses (stage "disc")
/// with "bad-rim" where there are fewer than three, or where they do not go around their middle.
[[nodiscard]] Outcome<DiscOutline> told_disc(const std::vector<PhotoPoint>& rim_px,
                                             const PhotoFromObject& photo_from_plane);

}  // namespace ridgetally
