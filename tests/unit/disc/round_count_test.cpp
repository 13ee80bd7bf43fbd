#include "disc/round_count.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace ridgetally {
namespace {

WholeCount stitches(int count) { return {count, count, count, 1.0}; }

TEST(LikelyRounds, ReadingsThatAgreeLeaveOneNumber) {
    const WholeCount rounds = likely_rounds({{7.02, 6.98}, stitches(42), 0.9});
    EXPECT_EQ(rounds.value, 7);
    EXPECT_EQ(rounds.least, 7);
    EXPECT_EQ(rounds.most, 7);
}

// Patterns for a flat disc of single crochet begin with six to eight stitches and add as many every round
// (common practice, no source): half-way between five and six rounds, 36 stitches are six times six.
TEST(LikelyRounds, HalfWayTheStitchesDecide) {
    EXPECT_EQ(likely_rounds({{5.5, 5.5}, stitches(36), 0.9}).value, 6);
    EXPECT_EQ(likely_rounds({{5.5, 5.5}, stitches(35), 1.1}).value, 5);
    EXPECT_EQ(likely_rounds({{5.5, 5.5}, stitches(36), {}}).value, 6);
}

// Two directions missed a round.
TEST(LikelyRounds, LostRoundsAreLikelierThanFoundOnes) {
    const WholeCount rounds = likely_rounds({{6.0, 4.9, 5.05, 6.1}, stitches(48), {}});
    EXPECT_EQ(rounds.value, 6);
    EXPECT_LE(rounds.least, 5);
}

// 65 stitches after five rounds would be 13 a round; a flat disc adds 2 pi times height over width, 5.7.
TEST(LikelyRounds, TooFewForAFlatDiscAreNotSure) {
    const WholeCount rounds = likely_rounds({{4.8, 4.9, 6.1, 8.3}, stitches(65), 0.9});
    EXPECT_GE(rounds.most, 8);
    EXPECT_LT(rounds.chance, 0.8);
}

TEST(LikelyRounds, NothingReadIsAMisuse) {
    EXPECT_THROW((void)likely_rounds({{}, stitches(36), {}}), std::invalid_argument);
    EXPECT_THROW((void)likely_rounds({{5.0}, {}, {}}), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
