#include "disc/rim.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/random.h"

namespace ridgetally {
namespace {

constexpr int columns = 360;
constexpr int rows = 80;

double wavy(int x) { return 40.0 + 8.0 * std::sin(2.0 * std::numbers::pi * 5.0 * x / columns); }

cv::Mat noisy_contrast(double strength, unsigned long long seed) {
    Random random(seed);
    cv::Mat contrast(rows, columns, CV_32F);
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x)
            contrast.at<float>(y, x) =
                static_cast<float>((y >= wavy(x) ? strength : -strength) + random.normal(0.0, 1.0));
    return contrast;
}

TEST(ClosedRim, FollowsAWavyBorderInNoise) {
    const auto rim = closed_rim(noisy_contrast(1.5, 3), 1.0);
    for (int x = 0; x < columns; ++x) EXPECT_NEAR(rim[static_cast<std::size_t>(x)], wavy(x), 3.0) << x;
}

TEST(ClosedRim, EndsWhereItBegan) {
    const auto rim = closed_rim(noisy_contrast(0.5, 4), 1.0);
    EXPECT_LE(std::abs(rim.front() - rim.back()), 6);  // one step of the path
}

TEST(ClosedRim, AHoleBehindTheRimDoesNotDrawItIn) {
    cv::Mat contrast = noisy_contrast(2.0, 5);
    for (int x = 100; x < 104; ++x)
        for (int y = 52; y < 58; ++y) contrast.at<float>(y, x) = -2.0F;
    const auto rim = closed_rim(contrast, 1.0);
    EXPECT_NEAR(rim[102], wavy(102), 3.0);
}

TEST(HalfWayRim, FindsTheEdgeBetweenPixels) {
    cv::Mat strip(rows, columns, CV_8UC3);
    constexpr double edge = 40.3;  // pixels above are table; pixel 40 is covered by 20 per cent table
    for (int y = 0; y < rows; ++y) {
        const double table = std::clamp(edge - (y - 0.5), 0.0, 1.0);
        strip.row(y).setTo(cv::Scalar(100 + 100 * table, 128, 128));
    }
    const auto rim = half_way_rim(strip, std::vector<int>(columns, 40));
    for (const double at : rim) EXPECT_NEAR(at, edge, 0.35);
}

TEST(ClosedMedian, TakesANarrowSpikeOutAndKeepsAStep) {
    std::vector<double> values(columns, 10.0);
    for (int i = 180; i < columns; ++i) values[static_cast<std::size_t>(i)] = 12.0;
    values[50] = 30.0;
    const auto median = closed_median(values, std::vector<bool>(values.size(), true), 10);
    EXPECT_EQ(median[50], 10.0);
    EXPECT_EQ(median[175], 10.0);
    EXPECT_EQ(median[185], 12.0);
    EXPECT_THROW((void)closed_median(values, {}, 3), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
