#pragma once

#include "catalog/catalog.h"

namespace ridgetally {

/// The basic crochet stitch (sc, hdc, dc, tr) whose published height:width is nearest, counted in its own
/// spread.
[[nodiscard]] StitchFamily family_of_shape(double height_to_width, const Catalog& catalog);

}  // namespace ridgetally
