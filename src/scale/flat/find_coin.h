#pragma once

#include "core/outcome.h"
#include "image/photo.h"
#include "scale/flat/flat_reference.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// A coin or other disc in the photo; see find_flat_reference.
[[nodiscard]] Outcome<ScaleReference> find_coin_in(const Photo& photo, const RoundObject& object);

}  // namespace ridgetally
