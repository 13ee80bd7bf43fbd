#pragma once

#include "pipeline/measure_crown.h"
#include "pipeline/reference.h"
#include "pipeline/ruler_height.h"

namespace ridgetally {

/// A stitch of the last round.
struct RimStitch {
    double width_mm = 0.0;         ///< in the middle of its height
    double std_mm = 0.0;           ///< standard uncertainty of that
    double one_loop_chance = 0.5;  ///< that it is worked through one loop, where the maker does not tell
};

/// Stitch width assumed until the stitches are counted. Yarns from super fine to super bulky are worked at 32
/// to 7 single crochet to 4 inches (Craft Yarn Council, Standard Yarn Weight System, from a transcription):
/// 3.2 to 14.5 mm, any as likely (JCGM 100:2008, 4.3.7).
inline constexpr RimStitch unread_stitch{7.0, 3.3, 0.5};

/// A height and its standard uncertainty, mm.
struct RimHeight {
    double mm = 0.0;
    double std_mm = 0.0;
};

/// Height of a crown's rim above the reference's face, as told or from its stitches.
[[nodiscard]] RimHeight rim_above(const FaceHeight& face, const CrownOptions& options,
                                  const ReferencePlane& plane, const RimStitch& stitch);

}  // namespace ridgetally
