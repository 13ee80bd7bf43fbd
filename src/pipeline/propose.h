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
    bool asked = false;
    std::vector<Proposal> proposals;   ///< empty where it was not asked or saw nothing
    std::optional<Glimpse> last_look;  ///< its last one at the fabric
};

/// When to ask: where the stitch is not told or the plain search is not sure by itself, or in any case.
enum class Ask { where_unsure, always };

/// Asks the recogniser about the search picture. Empty where it is not asked. Refuses with stage "fabric",
/// code "no-stitches" where the recogniser sees none and the stitch is not told, or no rows are seen either:
/// cloth, tiles and keys repeat too; with stage "recogniser", code "no-weights" where it is missing and the
/// stitch is not told: of 50 drawn swatches that the plain search then read, it read 9 stitches and 16 rows
/// wrongly.
[[nodiscard]] Outcome<Proposed> propose(const Knowledge& knowledge, const LatticeSearch& search, Ask ask,
                                        Trace& trace);

/// What was found is no crochet or knitting.
[[nodiscard]] Refusal no_stitches();

}  // namespace ridgetally
