#pragma once

#include <optional>
#include <vector>

#include "core/outcome.h"
#include "lattice/find_lattice.h"
#include "lattice/proposal.h"
#include "pipeline/measure_swatch.h"
#include "recogniser/scan.h"

namespace ridgetally {

/// What the recogniser says before the lattice is settled.
struct Proposed {
    std::vector<Proposal> proposals;   ///< empty where it was not asked
    std::optional<Glimpse> last_look;  ///< its last one at the fabric
};

/// Asks the recogniser about the search picture. Empty where there is no recogniser, or where the stitch is
/// told and the plain search is sure by itself. Refuses with stage "fabric", code "no-stitches" where the
/// recogniser sees none and the stitch is not told, or no rows are seen either: cloth, tiles and keys repeat
/// too.
[[nodiscard]] Outcome<Proposed> propose(const Knowledge& knowledge, const LatticeSearch& search,
                                        Trace& trace);

/// What was found is no crochet or knitting.
[[nodiscard]] Refusal no_stitches();

}  // namespace ridgetally
