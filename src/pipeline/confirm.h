#pragma once

#include <optional>

#include "core/outcome.h"
#include "lattice/find_lattice.h"
#include "pipeline/measure_swatch.h"
#include "pipeline/trace.h"
#include "recogniser/scan.h"
#include "recogniser/second_look.h"

namespace ridgetally {

/// What the recogniser says of a reading that it may have had no part in.
struct Opinion {
    /// Height of a row as the recogniser sees it over the one read, where the two differ so much that the
    /// rows read are not to be given: half or twice as high, most often, since another stitch was told.
    std::optional<double> other_row_ratio;
    /// Relative standard uncertainty of the rows read, where it sees them somewhat higher or lower than any
    /// right reading was seen: either may be right. 0 where they agree.
    double rows_apart_std = 0.0;
};

/// What a lattice claims, in pixels of the search picture.
[[nodiscard]] ClaimedReading claim_of(const Lattice& lattice, const LatticeSearch& search);

/// Whether what was read is a fabric's stitches in the recogniser's eyes too: cloth, walls and keys repeat as
/// well, and so do stripes. Refuses (stage "fabric", code "no-stitches") where they are not. Not asked where
/// the maker has judged the reading (`reading`, `repeat`); and where the maker named the stitch and bounded
/// the fabric, yarn that the recogniser cannot see as fabric at all passes, since it may be too dark or too
/// hairy. `before` is a look at the fabric taken before, which may be enough.
[[nodiscard]] Outcome<Opinion> opinion_on(const Lattice& lattice, const LatticeSearch& search,
                                          const std::optional<Glimpse>& before, const Knowledge& knowledge,
                                          const SwatchOptions& options, Trace& trace);

}  // namespace ridgetally
