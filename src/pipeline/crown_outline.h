#pragma once

#include "core/outcome.h"
#include "disc/disc_outline.h"
#include "pipeline/measure_crown.h"
#include "pipeline/reference.h"

namespace ridgetally {

/// The crown's rim on the plane `above_mm` over the reference: as it was told, or as the photo shows it.
/// Refusals are those of find_fabric, told_disc and trace_disc.
[[nodiscard]] Outcome<DiscOutline> crown_outline(const Photo& photo, const ReferencePlane& plane,
                                                 double above_mm, const CrownOptions& options, Trace& trace);

}  // namespace ridgetally
