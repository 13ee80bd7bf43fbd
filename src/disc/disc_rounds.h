#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/outcome.h"
#include "disc/disc_outline.h"
#include "disc/round_scale.h"
#include "disc/whole_count.h"
#include "recogniser/recogniser.h"

namespace ridgetally {

/// Rounds and stitches of a crown.
struct DiscRounds {
    RoundScale scale;
    double sureness = 0.0;         ///< of the recogniser in the rounds counted, all the way round
    double fabric_outside = 0.0;   ///< probability that there is fabric beyond part of the edge, 0 to 1
    double one_loop_chance = 0.0;  ///< that the stitches look like ones worked through one loop, 0 to 1
    WholeCount rounds;
    double row_mm = 0.0;                  ///< mean height of a round, on the outline's plane
    double row_std_mm = 0.0;              ///< between directions, as the standard uncertainty of the mean
    std::vector<double> round_radius_mm;  ///< of the tops of the rounds, last round first, where followed
    std::vector<WholeCount> stitches;     ///< of the last round, and of those before it that could be read
    std::vector<double> stitch_turns;  ///< where the stitches of the last round begin, as fractions of a turn
    std::vector<std::string> notes;    ///< for the trace
};

struct DiscRoundsOptions {
    int rounds_counted = 2;  ///< rounds whose stitches are counted, from the rim inwards
    int directions = 2;      ///< in which rounds are followed; twice as many where they disagree
    std::optional<double> height_over_width;  ///< of the stitch, where it is known
};

/// Counts rounds and stitches with the recogniser's phases. Refuses (stage "disc") with "no-stitches" where
/// nothing that looks like rounds of stitches is there.
[[nodiscard]] Outcome<DiscRounds> read_rounds(const Recogniser& recogniser, const GreyPyramid& photo,
                                              const DiscOutline& outline,
                                              const DiscRoundsOptions& options = {});

}  // namespace ridgetally
