#pragma once

#include "lattice/find_lattice.h"
#include "pipeline/measure_swatch.h"
#include "pipeline/trace.h"

namespace ridgetally {

/// Whether what was read is a fabric's stitches in the recogniser's eyes too: cloth, walls and keys repeat as
/// well, and so do stripes. Refuses (stage "fabric", code "no-stitches") where they are not. Not asked where
/// the maker has judged the reading (`reading`, `repeat`); and where the maker named the stitch and bounded
/// the fabric, yarn that the recogniser cannot see as fabric at all passes, since it may be too dark or too
/// hairy.
[[nodiscard]] std::optional<Refusal> doubt_of(const Lattice& lattice, const LatticeSearch& search,
                                              const Knowledge& knowledge, const SwatchOptions& options,
                                              Trace& trace);

}  // namespace ridgetally
