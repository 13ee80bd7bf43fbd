#pragma once

#include <optional>
#include <vector>

#include "core/outcome.h"
#include "fabric/fabric_patch.h"
#include "lattice/find_lattice.h"
#include "pipeline/measure_swatch.h"
#include "pipeline/reference.h"
#include "pipeline/ruler_height.h"
#include "pipeline/trace.h"

namespace ridgetally {

/// Height of the fabric's surface above the reference's face.
struct Surface {
    double mm = 0.0;
    double std_mm = 0.0;
};

/// What was found in a photo of a swatch and read from it, before it becomes figures.
struct SwatchReading {
    ReferencePlane plane;
    FaceHeight face;          ///< of the reference above the table
    double assumed_mm = 0.0;  ///< height above the reference of the plane the lattice was read on
    PatchSource source;       ///< the fabric, and that plane
    std::vector<FamilyPrior> priors;
    std::vector<Proposal> proposals;        ///< of the recogniser; none where it was not asked
    Lattice lattice;                        ///< without rows where the recogniser sees others
    std::optional<double> other_row_ratio;  ///< how high those that it sees are over the ones read
};

/// Reads reference, fabric and lattice. Refuses with the stage that could not go on: "photo", "scale",
/// "rectify", "fabric" (also where the recogniser sees no stitches in what repeats), "lattice".
[[nodiscard]] Outcome<SwatchReading> read_swatch(const Photo& photo, const Knowledge& knowledge,
                                                 const SwatchOptions& options, Trace& trace);

/// The fabric's surface where its stitches are `stitch_mm` wide and no thickness was told.
[[nodiscard]] Surface surface_of(const SwatchReading& reading, const SwatchOptions& options,
                                 double stitch_mm);

}  // namespace ridgetally
