#pragma once

#include <optional>
#include <vector>

#include "disc/whole_count.h"

namespace ridgetally {

/// What a crown shows of the number of its rounds.
struct RoundEvidence {
    std::vector<double> readings;             ///< rounds from rim to centre, one a direction
    WholeCount stitches;                      ///< of the last round
    std::optional<double> height_over_width;  ///< of the stitch, where it is known
};

/// The most likely number of rounds. A direction more often loses rounds than it finds too many (a short
/// round between two tall ones is hardly seen); crowns grow by the same number of stitches every round, begun
/// with, as a rule; and a flat one by 2 pi times the stitch's height over its width (geometry). Throws
/// std::invalid_argument for no readings or no stitches.
[[nodiscard]] WholeCount likely_rounds(const RoundEvidence& evidence);

}  // namespace ridgetally
