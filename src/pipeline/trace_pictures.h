#pragma once

#include "image/photo.h"
#include "lattice/find_lattice.h"
#include "pipeline/trace.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// "reference-marks": every mark of the reference that was read, line by line in another colour, its outline,
/// on the photo's overview.
void trace_reference(const Photo& photo, const ScaleReference& reference, Trace& trace);

/// "rectified-fabric": the fabric laid flat as it is searched for what repeats.
void trace_search(const LatticeSearch& search, Trace& trace);

/// "ridges": the boundaries that were traced, every row and the counted stitches, on the photo's overview.
void trace_ridges(const Photo& photo, const Lattice& lattice, Trace& trace);

}  // namespace ridgetally
