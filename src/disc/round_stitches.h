#pragma once

#include <vector>

#include "disc/stitch_count.h"
#include "disc/whole_count.h"

namespace ridgetally {

/// What was read of a round's stitches.
struct RoundReading {
    std::vector<CountScore> scores;  ///< logarithms of the counts' probabilities, up to a constant
    ClosedPhase phase;
    double expected = 0.0;  ///< stitches, by the scale
    double seen = 1.0;      ///< part of the edge that is seen, 0 to 1
};

/// Scores the counts near what the scale makes expect; where the likely ones lie at the end of what was
/// tried, the scale was off and more is tried.
[[nodiscard]] RoundReading read_round(ClosedPhase phase, double expected, double seen);

/// Lets the last two rounds, outer first, say what they know of each other, where the scale may be right for
/// both. `rim_mm`: radius of the edge; `row_mm`: height of a round.
void weigh_neighbours(std::vector<RoundReading>& rounds, double rim_mm, double row_mm);

/// The likeliest count, with those that cannot be excluded.
[[nodiscard]] WholeCount counted(const RoundReading& round);

}  // namespace ridgetally
