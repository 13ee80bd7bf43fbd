#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "disc/disc_outline.h"
#include "disc/round_scale.h"
#include "recogniser/recogniser.h"

namespace ridgetally {

/// Rounds passed on the way from the rim inwards, in one direction.
struct RadialPath {
    std::vector<double> radius_mm;  ///< falling
    std::vector<double> passed;     ///< rounds between the rim and that radius; whole at the foot of a round
    double sureness = 0.0;          ///< mean length of the phase vectors on the way
};

/// Follows the phase of the rounds along one direction (columns of the outline's angles, as a fraction of a
/// turn) from the rim to about one round from the centre, in pieces whose stitches the recogniser sees at
/// their own shape. None where the way is lost.
[[nodiscard]] std::optional<RadialPath> radial_path(const Recogniser& recogniser, const GreyPyramid& photo,
                                                    const DiscOutline& outline, const RoundScale& scale,
                                                    double at_turn);

}  // namespace ridgetally
