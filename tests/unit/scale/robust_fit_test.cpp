#include "scale/robust_fit.h"

#include <gtest/gtest.h>

#include "core/random.h"

namespace ridgetally {
namespace {

TEST(RobustFit, ParabolaThroughExactSamples) {
    std::vector<Sample> samples;
    for (int x = -5; x <= 20; ++x) samples.push_back({static_cast<double>(x), 3.0 - 0.5 * x + 0.02 * x * x});
    const Polynomial p = robust_polynomial(samples, 2, 1e-6);
    EXPECT_NEAR(p(7.5), 3.0 - 3.75 + 1.125, 1e-9);
    EXPECT_NEAR(p.slope(7.5), -0.5 + 0.3, 1e-9);
}

TEST(RobustFit, AThirdOfOutliersOnOneSideDoesNotMoveIt) {
    Random random(5);
    std::vector<Sample> samples;
    for (int i = 0; i < 90; ++i) {
        const double x = random.uniform(0.0, 100.0);
        const double y = 10.0 + 0.3 * x + random.normal(0.0, 0.1);
        samples.push_back({x, i % 3 == 0 ? y + random.uniform(5.0, 40.0) : y});
    }
    const Polynomial p = robust_polynomial(samples, 1, 0.01);
    // 60 good samples of 0.1: the line's own uncertainty at the middle is 0.013, at the ends twice that.
    EXPECT_NEAR(p(50.0), 25.0, 0.06);
    EXPECT_NEAR(p(0.0), 10.0, 0.12);
}

TEST(RobustFit, GoesOnAlongItsTangent) {
    std::vector<Sample> samples;
    for (int x = 0; x <= 10; ++x) samples.push_back({static_cast<double>(x), static_cast<double>(x * x)});
    const Polynomial p = robust_polynomial(samples, 2, 1e-6);
    EXPECT_NEAR(p(12.0), 100.0 + 2.0 * 20.0, 1e-6);
    EXPECT_NEAR(p(-3.0), 0.0, 1e-6);
}

TEST(RobustFit, FewSamplesLowerTheDegree) {
    EXPECT_EQ(robust_polynomial({}, 2, 1.0)(5.0), 0.0);
    EXPECT_NEAR(robust_polynomial({{3.0, 8.0}}, 2, 1.0)(100.0), 8.0, 1e-9);
    EXPECT_NEAR(robust_polynomial({{0.0, 1.0}, {2.0, 5.0}}, 2, 1.0)(1.0), 3.0, 1e-9);
}

TEST(RobustFit, Quantiles) {
    EXPECT_EQ(quantile_of({4, 2, 3, 1, 0}, 0.25), 1.0);
    EXPECT_EQ(quantile_of({4, 2, 3, 1, 0}, 1.0), 4.0);
    EXPECT_EQ(quantile_of({}, 0.5), 0.0);
}

}  // namespace
}  // namespace ridgetally
