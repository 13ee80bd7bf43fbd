#pragma once

#include <optional>

#include "core/outcome.h"
#include "image/photo.h"
#include "scale/scale_reference.h"
#include "scale/two_points.h"

namespace ridgetally {

/// What the user may tell about the ruler.
struct RulerOptions {
    std::optional<LengthUnit> told_unit;  ///< where the marks alone do not decide; never against clear marks
};

/// Finds graduated rulers and tapes and reads their marks. The best line (most marks) comes first; every
/// other line that agrees with it follows. Where no line is read, a coarse scale of whole centimetres divided
/// in ten is looked for (coarse_scale.h). Refuses with stage "scale" and
///   "no-ruler"         nothing like a row of ruler marks,
///   "ruler-unreadable" an even row of marks whose divisions cannot be made out,
///   "unit-undecided"   marks that millimetres and inches (or two step widths) would explain alike,
///   "unit-conflict"    marks that clearly count in the other unit than the one told.
/// Same photo, same result. Throws std::invalid_argument for an empty photo.
[[nodiscard]] Outcome<ScaleReference> read_ruler(const Photo& photo, const RulerOptions& options = {});

}  // namespace ridgetally
