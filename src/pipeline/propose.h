#pragma once

#include <vector>

#include "lattice/find_lattice.h"
#include "lattice/proposal.h"
#include "pipeline/measure_swatch.h"

namespace ridgetally {

/// Asks the recogniser about the search picture. Empty where there is no recogniser, or where the stitch is
/// told and the plain search is sure by itself.
[[nodiscard]] std::vector<Proposal> propose(const Knowledge& knowledge, const LatticeSearch& search,
                                            Trace& trace);

}  // namespace ridgetally
