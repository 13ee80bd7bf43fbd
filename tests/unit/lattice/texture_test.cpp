#include "lattice/texture.h"

#include <gtest/gtest.h>

#include "unit/lattice/drawn_fabric.h"

namespace ridgetally {
namespace {

TEST(TextureChannels, AreStandardisedUnderTheMaskAndZeroOutside) {
    const cv::Mat fabric = test::draw({});
    cv::Mat mask(fabric.size(), CV_8U, cv::Scalar(0));
    mask(cv::Rect(100, 80, 300, 250)).setTo(255);
    for (const auto& channel : texture_channels(fabric, mask, {})) {
        cv::Scalar mean;
        cv::Scalar std;
        cv::meanStdDev(channel, mean, std, mask);
        EXPECT_NEAR(mean[0], 0.0, 1e-3);
        EXPECT_NEAR(std[0], 1.0, 1e-3);
        EXPECT_EQ(cv::countNonZero(channel(cv::Rect(0, 0, 90, 70))), 0);
    }
}

// A lamp that falls off over the swatch must not change the texture.
TEST(TextureChannels, IgnoreASlowChangeOfLight) {
    const cv::Mat fabric = test::draw({});
    cv::Mat shaded = fabric.clone();
    for (int y = 0; y < shaded.rows; ++y) {
        for (int x = 0; x < shaded.cols; ++x) {
            shaded.at<float>(y, x) *= 0.4F + 0.5F * static_cast<float>(x) / static_cast<float>(shaded.cols);
        }
    }
    const cv::Mat mask(fabric.size(), CV_8U, cv::Scalar(255));
    const auto a = texture_channels(fabric, mask, {});
    const auto b = texture_channels(shaded, mask, {});
    for (std::size_t i = 0; i < a.size(); ++i) {
        const double correlation = a[i].dot(b[i]) / std::sqrt(a[i].dot(a[i]) * b[i].dot(b[i]));
        EXPECT_GT(correlation, 0.98);
    }
}

TEST(TextureChannels, NeedAMask) {
    EXPECT_THROW((void)texture_channels(cv::Mat(9, 9, CV_32F), cv::Mat(9, 9, CV_8U, cv::Scalar(0)), {}),
                 std::invalid_argument);
    EXPECT_THROW((void)texture_channels(cv::Mat(9, 9, CV_8U), cv::Mat(9, 9, CV_8U, cv::Scalar(255)), {}),
                 std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
