#include <gtest/gtest.h>

#include "report/hat.h"

namespace ridgetally {
namespace {

CrownRound round_of(int number, int stitches, int into_plain, std::vector<IncreaseGroup> groups) {
    return {number, stitches, into_plain, into_plain + 1, std::move(groups), exact(10.0)};
}

// Words as published patterns print rounds (common practice).
TEST(RoundWords, AreThoseOfPatterns) {
    EXPECT_EQ(round_words(round_of(1, 6, 1, {}), "sc"), "6 sc in a start ring");
    EXPECT_EQ(round_words(round_of(2, 12, 2, {}), "sc"), "2 sc in each stitch");
    EXPECT_EQ(round_words(round_of(9, 44, 1, {}), "dc"), "dc in each stitch");
    EXPECT_EQ(round_words(round_of(3, 18, 1, {{1, 0, 6}}), "sc"), "*1 sc, inc* 6 times");
    EXPECT_EQ(round_words(round_of(6, 36, 1, {{2, 2, 6}}), "htr"), "*2 htr, inc, 2 htr* 6 times");
    EXPECT_EQ(round_words(round_of(5, 28, 1, {{4, 0, 3}, {3, 0, 2}}), "sc"),
              "*4 sc, inc* 3 times, *3 sc, inc* 2 times");
    EXPECT_EQ(round_words(round_of(4, 23, 1, {{1, 1, 1}}), "sc"), "1 sc, inc, 1 sc");
}

// 13 into 6: two in each of five stitches, three in the sixth.
TEST(RoundWords, SayWhereARoundMoreThanDoubles) {
    EXPECT_EQ(round_words(round_of(2, 13, 2, {{5, 0, 1}}), "sc"), "2 sc in each of 5, 3 sc in the next");
}

TEST(LengthText, IsInTheUnitAskedFor) {
    EXPECT_EQ(length_text(560.0, SizeUnit::cm), "56.0 cm");
    EXPECT_EQ(length_text(558.8, SizeUnit::inch), "22.0 in");
}

}  // namespace
}  // namespace ridgetally
