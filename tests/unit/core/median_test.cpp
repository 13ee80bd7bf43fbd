#include "core/median.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/lower_case.h"
#include "core/random.h"

namespace ridgetally {
namespace {

TEST(Median, TheMiddleOneTheUpperOfTwo) {
    EXPECT_EQ(median_of({5, 1, 3}), 3.0);
    EXPECT_EQ(median_of({4, 1, 3, 2}), 3.0);
    EXPECT_EQ(median_of({}), 0.0);
}

TEST(Median, OfDeviationsGivesTheStandardDeviationOfTheNormalLaw) {
    Random random(2);
    std::vector<double> sizes;
    for (int i = 0; i < 20000; ++i) sizes.push_back(std::abs(random.normal(0.0, 3.0)));
    // Its standard error is 1.17 / sqrt(n) of sigma: 0.025 here (Huber, Robust Statistics, 1981, section 5.1:
    // efficiency 37 %).
    EXPECT_NEAR(mad_to_std * median_of(sizes), 3.0, 0.08);
}

TEST(LowerCase, LettersAToZOnly) { EXPECT_EQ(lower_case("Fibre ÄZ-9_[@"), "fibre Äz-9_[@"); }

}  // namespace
}  // namespace ridgetally
