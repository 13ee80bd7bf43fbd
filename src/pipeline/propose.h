#pragma once

#include <vector>

#include "core/outcome.h"
#include "lattice/find_lattice.h"
#include "lattice/proposal.h"
#include "pipeline/measure_swatch.h"

namespace ridgetally {

/// Asks the recogniser about the search picture. Empty where there is no recogniser, or where the stitch is
/// told and the plain search is sure by itself. Refuses with stage "fabric", code "no-stitches" where the
/// recogniser sees none and the stitch is not told, or no rows are seen either: cloth, tiles and keys repeat
/// too.
[[nodiscard]] Outcome<std::vector<Proposal>> propose(const Knowledge& knowledge, const LatticeSearch& search,
                                                     Trace& trace);

/// What was found is no crochet or knitting.
[[nodiscard]] Refusal no_stitches();

}  // namespace ridgetally
