#include "disc/neighbour_count.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "disc/whole_count.h"

namespace ridgetally {
namespace {

/// A reading of `count` with that probability, its neighbours sharing the rest.
std::vector<CountScore> read_as(int count, double chance, int least, int most) {
    std::vector<CountScore> scores;
    for (int k = least; k <= most; ++k) {
        const int off = std::abs(k - count);
        scores.push_back({k, std::log(off == 0 ? chance : 0.5 * (1.0 - chance) * std::pow(0.05, off - 1))});
    }
    return scores;
}

WholeCount outer_of(const NeighbourRounds& rounds) {
    return most_likely(weighed_together(rounds).outer, 1.0);
}

// Stitches as high as they are wide: a flat round adds 2 pi of them (geometry); patterns say six (common
// practice, no source).
TEST(NeighbourCount, AFlatCrownOfSquareStitchesAddsTwoPi) {
    const double width_mm = 5.0;
    const double rim_mm = 30.0;
    const double stitches = 2.0 * std::numbers::pi * (rim_mm - 0.5 * width_mm) / width_mm;
    EXPECT_NEAR(added_when_flat(stitches, rim_mm, width_mm), 2.0 * std::numbers::pi, 1e-9);
}

// Eight were added in the last round, and the same round was read twice: what a flat crown would have is not
// excluded.
TEST(NeighbourCount, ARoundReadTwiceIsNoticed) {
    const WholeCount count = outer_of({read_as(49, 0.9, 40, 64), read_as(48, 0.9, 34, 60), 7.5});
    EXPECT_LE(count.least, 49);
    EXPECT_GE(count.most, 56);
    EXPECT_LT(count.chance, 0.9);
}

TEST(NeighbourCount, RoundsThatAgreeAreSurer) {
    const NeighbourRounds rounds{read_as(56, 0.5, 40, 64), read_as(48, 0.9, 34, 60), 8.0};
    const WholeCount count = outer_of(rounds);
    EXPECT_EQ(count.value, 56);
    EXPECT_LE(count.most - count.least, 4);
    EXPECT_EQ(most_likely(weighed_together(rounds).inner, 1.0).value, 48);
}

// A last round worked evenly is not talked out of what is seen clearly in it.
TEST(NeighbourCount, AnEvenLastRoundStaysTheLikeliest) {
    const WholeCount count = outer_of({read_as(48, 0.99, 40, 64), read_as(48, 0.99, 34, 60), 7.5});
    EXPECT_EQ(count.value, 48);
}

TEST(NeighbourCount, NothingToWeighIsMisuse) {
    EXPECT_THROW((void)weighed_together({{}, {{4, 0.0}}, 6.0}), std::invalid_argument);
    EXPECT_THROW((void)weighed_together({{{4, 0.0}}, {{4, 0.0}}, 0.0}), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
