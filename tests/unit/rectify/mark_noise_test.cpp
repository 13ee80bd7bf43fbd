#include "rectify/mark_noise.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/random.h"

namespace ridgetally {
namespace {

std::vector<double> autoregressive(double rho, int count) {
    Random random(99);
    std::vector<double> series;
    double value = 0.0;
    for (int i = 0; i < count; ++i) {
        value = rho * value + std::sqrt(1.0 - rho * rho) * random.normal(0.0, 1.0);
        series.push_back(value);
    }
    return series;
}

// 1.4826 times the median absolute deviation estimates sigma of a normal law; 2 % is what 2,000 values leave.
TEST(MarkNoise, IsTheStandardDeviationDespiteOutliers) {
    auto series = autoregressive(0.0, 2000);
    for (auto& r : series) r *= 0.5;
    for (std::size_t i = 0; i < series.size(); i += 20) series[i] = 60.0;
    EXPECT_NEAR(noise_of(series, 3, 0.3), 0.5, 0.05);
}

TEST(MarkNoise, FewMarksClaimNoCertainty) {
    EXPECT_DOUBLE_EQ(noise_of({0.0, 0.0}, 2, 0.3), 0.3);
    EXPECT_GT(noise_of({0.0, 0.0, 0.0, 0.0}, 2, 0.3), 0.2);
}

// First-order autoregression with coefficient rho: integrated autocorrelation time (1 + rho) / (1 - rho).
TEST(MarkNoise, RepetitionIsTheAutocorrelationTime) {
    EXPECT_NEAR(repetition_of(autoregressive(0.0, 4000), 1.0), 1.0, 0.15);
    EXPECT_NEAR(repetition_of(autoregressive(0.5, 4000), 1.0), 3.0, 0.5);
    EXPECT_NEAR(repetition_of(autoregressive(0.8, 4000), 1.0), 9.0, 2.5);
    EXPECT_DOUBLE_EQ(repetition_of({1, 1, 1, 1}, 1.0), 1.0);
}

// A sine of 0.2 mm over 150 mm has slopes of 0.2 x 2 pi / 150 = 0.84 % at most, 0.59 % root mean square;
// medians over sixths flatten it by sinc(1/6) = 0.95, differences by the same again.
TEST(MarkNoise, UnevennessIsTheSlopeOfWhatIsLeft) {
    Random random(12);
    std::vector<double> positions, wavy, noise;
    for (int i = 0; i < 150; ++i) {
        positions.push_back(i);
        noise.push_back(random.normal(0.0, 0.05));
        wavy.push_back(0.2 * std::sin(2.0 * std::numbers::pi * i / 150.0) + noise.back());
    }
    EXPECT_NEAR(unevenness_of(positions, wavy), 0.0059 * 0.95 * 0.95, 0.0012);
    EXPECT_LT(unevenness_of(positions, noise), 0.0006);
    EXPECT_DOUBLE_EQ(unevenness_of({1, 2, 3}, {5, -5, 5}), 0.0);
}

}  // namespace
}  // namespace ridgetally
