#pragma once

#include "lattice/find_lattice.h"
#include "pipeline/measure_swatch.h"
#include "pipeline/trace.h"
#include "recogniser/second_look.h"

namespace ridgetally {

/// Whether the recogniser sees one gauge at one end of the fabric and another at the other end: two pieces
/// that touch each other were taken for one. The scout looks at the middles of the two halves of the fabric
/// along its longest axis, first at the scale and in the direction that show `claim`, which was read from
/// both (in pixels of the search picture). False where the recogniser is missing or an end is not seen
/// clearly.
[[nodiscard]] bool ends_differ(const ClaimedReading& claim, const LatticeSearch& search,
                               const Knowledge& knowledge, Trace& trace);

}  // namespace ridgetally
