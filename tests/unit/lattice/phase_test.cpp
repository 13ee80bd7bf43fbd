#include "lattice/phase.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ridgetally {
namespace {

constexpr double turn = 6.283185307179586;

cv::Mat wave(double pitch_x, double pitch_y, cv::Size size) {
    cv::Mat picture(size, CV_32F);
    for (int y = 0; y < size.height; ++y) {
        for (int x = 0; x < size.width; ++x) {
            picture.at<float>(y, x) = static_cast<float>(std::cos(turn * (x / pitch_x + y / pitch_y)));
        }
    }
    return picture;
}

class PitchFromPhase : public testing::TestWithParam<double> {};

// A sine of known pitch, first guess off by up to 15 %: the pitch must come back to a tenth of a per cent.
TEST_P(PitchFromPhase, IsExactForASine) {
    const double pitch = 17.3;
    const cv::Mat picture = wave(pitch, 1e9, {500, 200});
    const cv::Mat mask(picture.size(), CV_8U, cv::Scalar(255));
    const double guess = pitch * GetParam();
    const auto field = demodulate(picture, mask, Axis::x, guess, {0.7 * guess, 8.0});
    const auto read = pitch_of({field}, {0, 0, 500, 200}, 250.0);
    EXPECT_NEAR(read.pitch_px / pitch, 1.0, 1e-3);
    EXPECT_GT(read.coherence, 0.99);
}

INSTANTIATE_TEST_SUITE_P(FirstGuesses, PitchFromPhase, testing::Values(0.85, 0.93, 1.0, 1.08, 1.15));

TEST(CrossFrequency, TellsHowRowsClimb) {
    // Rows of pitch 20 px whose phase advances 1 turn in 400 px along x: they climb by 20 px in 400.
    const cv::Mat picture = wave(400.0, 20.0, {600, 300});
    const cv::Mat mask(picture.size(), CV_8U, cv::Scalar(255));
    const auto field = demodulate(picture, mask, Axis::y, 20.0, {14.0, 30.0});
    // 2 % of the climb, a twentieth of a degree here, is lost where windows reach over the border.
    EXPECT_NEAR(cross_frequency({field}, {0, 0, 600, 300}, 300.0), 1.0 / 400.0, 0.02 / 400.0);
}

TEST(Demodulate, StaysInsideTheMask) {
    const cv::Mat picture = wave(16.0, 1e9, {256, 128});
    cv::Mat mask(picture.size(), CV_8U, cv::Scalar(0));
    mask(cv::Rect(64, 32, 128, 64)).setTo(255);
    const auto field = demodulate(picture, mask, Axis::x, 16.0, {11.0, 6.0});
    const int step = field.step_px;
    EXPECT_EQ(field.response.cols, 256 / step);
    EXPECT_EQ(cv::norm(field.response(cv::Rect(0, 0, 60 / step, 128 / step))), 0.0);
    EXPECT_GT(cv::norm(field.response), 0.0);
}

}  // namespace
}  // namespace ridgetally
