#pragma once

#include <vector>

#include "pipeline/measure_swatch.h"
#include "pipeline/swatch_reading.h"

namespace ridgetally {

/// What the maker should know of a swatch's figures: of the scale, of weights that are missing, of fabric
/// that is cut off, touched by the ruler or uneven, and of rows that are not sure.
[[nodiscard]] std::vector<Warning> swatch_warnings(const SwatchReading& reading, const Knowledge& knowledge,
                                                   const SwatchOptions& options);

}  // namespace ridgetally
