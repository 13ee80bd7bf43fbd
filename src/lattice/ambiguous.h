#pragma once

#include <vector>

#include "core/outcome.h"
#include "lattice/choose.h"
#include "lattice/proposal.h"
#include "lattice/reading.h"

namespace ridgetally {

/// Two readings that explain the picture alike.
struct Tie {
    Reading reading;
    std::vector<Reading> rivals;  ///< best first, as `--reading` counts them
    /// What a proposal holds against `reading`, null where none of another stitch does.
    const Proposal* against = nullptr;
};

/// The refusal (stage "lattice", code "ambiguous") that names both readings by what they come to over 10 cm,
/// so that a maker can count which one it is. Those figures hold to a few per cent: `px_per_mm` is that of
/// the search picture, before the fabric's height and unevenness are allowed for.
[[nodiscard]] Refusal ambiguous(const Tie& tie, double px_per_mm, const ChooseOptions& options);

}  // namespace ridgetally
