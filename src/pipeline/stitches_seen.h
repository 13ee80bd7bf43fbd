#pragma once

#include <opencv2/core.hpp>
#include <optional>

#include "fabric/fabric_region.h"
#include "lattice/find_lattice.h"
#include "pipeline/measure_swatch.h"
#include "pipeline/trace.h"
#include "recogniser/second_look.h"

namespace ridgetally {

/// Whether a region may be the whole picture beside the ruler rather than a swatch: it has no edge of its own
/// but where the photo's frame and the ruler cut it.
[[nodiscard]] bool without_edges(const FabricRegion& region);

/// The part of the region that shows stitches in the recogniser's eyes, as the scout sees it at the scale
/// that shows `claim`, its border drawn by the photo's `colours`. None where the recogniser is missing, where
/// it takes nearly all of the region or hardly anything for fabric.
[[nodiscard]] std::optional<FabricRegion> stitches_seen(const FabricRegion& region, const ColourView& colours,
                                                        const LatticeSearch& search,
                                                        const ClaimedReading& claim,
                                                        const Knowledge& knowledge, Trace& trace);

}  // namespace ridgetally
