#pragma once

#include <optional>
#include <vector>

#include "core/outcome.h"
#include "pipeline/crown_result.h"
#include "pipeline/measure_swatch.h"

namespace ridgetally {

struct CrownOptions {
    ScaleOptions scale;
    std::optional<StitchFamily> stitch;        ///< told; recognised where not
    std::vector<PhotoPoint> area_px;           ///< the crown lies inside this polygon
    std::vector<PhotoPoint> rim_px;            ///< points on the crown's rim, set by hand; empty: it is found
    std::optional<double> crown_thickness_mm;  ///< height of the crown's top above the table
    std::optional<double> ruler_thickness_mm;  ///< height of the ruler's face above the table
};

/// Photo in, crown out: diameter, rounds, stitches of the last round.
[[nodiscard]] Outcome<CrownResult> measure_crown(const Photo& photo, const Knowledge& knowledge,
                                                 const CrownOptions& options, Trace& trace);

/// Several photos of the same crown as one result: weighted means of sizes, the count that is most likely
/// over all of them, a warning where they disagree. Overlay and scale are those of the first. Throws
/// std::invalid_argument for an empty list.
[[nodiscard]] CrownResult combine_crowns(const std::vector<CrownResult>& results);

}  // namespace ridgetally
