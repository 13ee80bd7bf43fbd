#pragma once

#include <vector>

#include "core/stitch.h"
#include "fabric/fabric_patch.h"
#include "lattice/lattice.h"
#include "lattice/proposal.h"
#include "lattice/reading.h"
#include "recogniser/stitch_namer.h"

namespace ridgetally {

/// Names the stitch of a fabric whose lattice is known: what the network sees in its middle and what the
/// network of the phase fields saw (the likeliest of `proposals`), weighed with the published height over
/// width (`priors`, one a family); the loop is the latter's. The proposals also say which way up the stitches
/// stand, and how tall a row is where the lattice leaves that open. No family where no stitch, whatever its
/// loop, has a probability of a half.
[[nodiscard]] StitchReading name_stitch(const StitchNamer& namer, const PatchSource& source,
                                        const Lattice& lattice, const std::vector<Proposal>& proposals,
                                        const std::vector<FamilyPrior>& priors);

}  // namespace ridgetally
