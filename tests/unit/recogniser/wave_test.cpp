#include "recogniser/wave.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/random.h"
#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

const cv::Size size(96, 96);
const cv::Mat everywhere = cv::Mat::ones(size, CV_32FC1);

TEST(Wave, FindsAPlaneWave) {
    for (const cv::Point2d f :
         {cv::Point2d(0.093, -0.021), cv::Point2d(-0.14, 0.06), cv::Point2d(0.031, 0.17)}) {
        const Wave wave = strongest_wave(plane_wave(size, f), everywhere);
        // A fifth of a bin of the spectrum (1/96): what parabolic interpolation leaves on a Hann window.
        EXPECT_NEAR(wave.frequency.x, f.x, 0.2 / 96);
        EXPECT_NEAR(wave.frequency.y, f.y, 0.2 / 96);
        EXPECT_NEAR(wave.length, 1.0, 1e-5);
        EXPECT_GT(wave.concentration, 0.99);
    }
}

TEST(Wave, RefinedToAThousandth) {
    const cv::Point2d f(0.0973, -0.0211);
    const cv::Point2d refined = refined_frequency(plane_wave(size, f), everywhere, {0.095, -0.018});
    EXPECT_NEAR(refined.x, f.x, 1e-6);
    EXPECT_NEAR(refined.y, f.y, 1e-6);
}

TEST(Wave, RefinedUnderNoise) {
    const cv::Point2d f(0.0973, -0.0211);
    cv::Mat field = plane_wave(size, f);
    Random random(3);
    for (int i = 0; i < field.rows * field.cols; ++i) {
        auto& z = field.ptr<cv::Vec2f>()[i];
        z[0] += static_cast<float>(random.normal(0.0, 0.5));
        z[1] += static_cast<float>(random.normal(0.0, 0.5));
    }
    const cv::Point2d start = strongest_wave(field, everywhere).frequency;
    const cv::Point2d refined = refined_frequency(field, everywhere, start);
    // Phase noise 0.5 rad over 6000 pairs 32 samples apart: 0.5 / sqrt(6000) / (2 pi 32) = 3e-5; ten times
    // that.
    EXPECT_NEAR(refined.x, f.x, 3e-4);
    EXPECT_NEAR(refined.y, f.y, 3e-4);
}

TEST(Wave, TwoWavesShareTheConcentration) {
    const cv::Mat both = 0.5 * plane_wave(size, {0.08, 0.0}) + 0.5 * plane_wave(size, {0.25, 0.0});
    EXPECT_NEAR(strongest_wave(both, everywhere).concentration, 0.5, 0.02);
}

TEST(Wave, NothingSeenIsNoWave) {
    EXPECT_EQ(strongest_wave(cv::Mat::zeros(size, CV_32FC2), everywhere).length, 0.0);
    EXPECT_EQ(strongest_wave(plane_wave(size, {0.1, 0.0}), cv::Mat::zeros(size, CV_32FC1)).length, 0.0);
}

}  // namespace
}  // namespace ridgetally::test
