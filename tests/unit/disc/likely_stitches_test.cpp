#include "disc/likely_stitches.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

// Six rounds to 36: six are added in each (geometry of a flat disc; common practice), so the one before the
// last has 30.
TEST(EvenGrowth, IsHeldByTheRangeOfTheRoundBefore) {
    const std::vector<WholeCount> read{{36, 36, 36, 0.97}, {36, 36, 36, 0.96}};
    const auto stitches = with_even_growth(6, read);
    EXPECT_EQ(stitches[0].least, 36);
    EXPECT_EQ(stitches[0].most, 36);
    EXPECT_EQ(stitches[1].value, 36);
    EXPECT_EQ(stitches[1].least, 30);
    EXPECT_EQ(stitches[1].most, 36);
    EXPECT_LE(stitches[1].chance, 0.5);
}

TEST(EvenGrowth, LeavesARangeThatHoldsItAlone) {
    const std::vector<WholeCount> read{{45, 44, 46, 0.7}, {38, 37, 40, 0.8}};
    const auto stitches = with_even_growth(7, read);  // 38.6 would be even
    EXPECT_EQ(stitches[1].least, 37);
    EXPECT_EQ(stitches[1].most, 40);
    EXPECT_DOUBLE_EQ(stitches[1].chance, 0.8);
}

// There is no round before the first.
TEST(EvenGrowth, StopsAtTheFirstRound) {
    const std::vector<WholeCount> read{{8, 8, 8, 0.9}, {8, 7, 9, 0.9}};
    const auto stitches = with_even_growth(1, read);
    EXPECT_EQ(stitches[1].least, 7);
    EXPECT_EQ(stitches[1].most, 9);
}

}  // namespace
}  // namespace ridgetally
