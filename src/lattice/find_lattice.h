#pragma once

#include <optional>
#include <vector>

#include "core/outcome.h"
#include "fabric/fabric_patch.h"
#include "lattice/lattice.h"
#include "lattice/proposal.h"
#include "lattice/reading.h"

namespace ridgetally {

/// What is known of the row direction before looking at the texture.
enum class RowHint {
    none,       ///< any direction
    modulo_90,  ///< along or across a straight side of the swatch
    told        ///< given by hand
};

struct LatticeOptions {
    RowHint row_hint = RowHint::none;
    double row_direction_rad = 0.0;   ///< on the fabric's plane, for hints other than none
    double row_tolerance_rad = 0.21;  ///< 12 degrees: hand work skews, and so does a tilt not known yet
    std::vector<FamilyPrior> priors;  ///< of the told stitch, or of every family
    StitchSource source = StitchSource::told;
    /// Finest and coarsest stitch looked for: 40 sc per 4 in (lace) and 4 per 4 in (jumbo), Standard Yarn
    /// Weight System.
    double least_stitch_mm = 2.4;
    double most_stitch_mm = 24.0;
    int stitches_per_repeat = 1;  ///< textured patterns: what one visible period is made of
    int rows_per_repeat = 1;
    int accepted_rival = 0;  ///< by the maker, from 1; 0: the best reading is taken
};

/// The fabric laid flat for the search and every way to read it.
struct LatticeSearch {
    FabricPatch patch;
    double photo_px_per_mm = 0.0;   ///< of the photo, in the middle of the fabric
    LatticeOptions options;         ///< with told repeats worked in
    std::vector<Reading> readings;  ///< best first, never empty
};

/// Looks for everything that repeats. Refuses (stage "lattice") with "no-texture" where nothing does.
[[nodiscard]] Outcome<LatticeSearch> search_lattice(const PatchSource& source, const LatticeOptions& options);

/// Settles on one reading, with what `proposals` say, and measures it. Refuses with "ambiguous" where another
/// reading explains the picture as well, with "no-texture" where the chosen one does not hold up.
[[nodiscard]] Outcome<Lattice> settle_lattice(const PatchSource& source, const LatticeSearch& search,
                                              const std::vector<Proposal>& proposals);

}  // namespace ridgetally
