#include "core/random.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ridgetally {
namespace {

// Published test vector of SplitMix64 with seed 1234567 (Rosetta Code task "Pseudo-random
// numbers/Splitmix64").
TEST(Random, MatchesThePublishedSequence) {
    Random random(1234567);
    EXPECT_EQ(random.next(), 6457827717110365317ULL);
    EXPECT_EQ(random.next(), 3203168211198807973ULL);
    EXPECT_EQ(random.next(), 9817491932198370423ULL);
}

TEST(Random, NormalHasTheAskedMoments) {
    Random random(7);
    double sum = 0.0;
    double squares = 0.0;
    const int n = 100000;
    for (int i = 0; i < n; ++i) {
        const double x = random.normal(3.0, 2.0);
        sum += x;
        squares += (x - 3.0) * (x - 3.0);
    }
    // Five standard errors of the mean and of the variance.
    EXPECT_NEAR(sum / n, 3.0, 5 * 2.0 / std::sqrt(n));
    EXPECT_NEAR(squares / n, 4.0, 5 * 4.0 * std::sqrt(2.0 / n));
}

TEST(Random, WholeNumbersCoverBothEnds) {
    Random random(1);
    bool low = false;
    bool high = false;
    for (int i = 0; i < 200; ++i) {
        const int x = random.whole(-2, 2);
        ASSERT_GE(x, -2);
        ASSERT_LE(x, 2);
        low = low || x == -2;
        high = high || x == 2;
    }
    EXPECT_TRUE(low && high);
    EXPECT_THROW((void)random.whole(1, 0), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
