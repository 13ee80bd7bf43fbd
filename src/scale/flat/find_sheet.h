#pragma once

#include "catalog/facts.h"
#include "core/outcome.h"
#include "image/photo.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// A card or sheet in the photo; see find_flat_reference.
[[nodiscard]] Outcome<ScaleReference> find_sheet(const Photo& photo, const FlatObject& object);

}  // namespace ridgetally
