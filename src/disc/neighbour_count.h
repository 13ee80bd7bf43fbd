#pragma once

#include <vector>

#include "disc/stitch_count.h"

namespace ridgetally {

/// What was read of two neighbouring rounds.
struct NeighbourRounds {
    std::vector<CountScore> outer;  ///< logarithms of probabilities, up to a constant, of the outer one
    std::vector<CountScore> inner;
    double added = 0.0;  ///< stitches that a flat crown adds in the outer round
};

/// Logarithms of the probabilities of each round's counts, what the other one says of it included.
struct NeighbourCounts {
    std::vector<CountScore> outer;
    std::vector<CountScore> inner;
};

/// Stitches that a flat crown of `stitches` in the last round adds there: its circumference grows by 2 pi
/// times the height of a round, stitches stay as wide (geometry). `rim_mm`: radius of the edge.
[[nodiscard]] double added_when_flat(double stitches, double rim_mm, double row_mm);

/// A flat crown adds about as many stitches in a round as its circumference grows by, few are worked evenly
/// at the end; and a reading may be that of another round, when it says nothing. Throws std::invalid_argument
/// for an empty list or `added` that is not positive.
[[nodiscard]] NeighbourCounts weighed_together(const NeighbourRounds& rounds);

}  // namespace ridgetally
