#include "image/grey.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

TEST(Grey, IsLumaOfBt601) {
    // ITU-R BT.601, 2.5.1.
    const cv::Mat bgr(3, 2, CV_8UC3, cv::Scalar(190, 60, 30));
    const cv::Mat grey = grey_of(bgr);
    ASSERT_EQ(grey.type(), CV_8UC1);
    EXPECT_NEAR(grey.at<std::uint8_t>(1, 1), 0.114 * 190 + 0.587 * 60 + 0.299 * 30, 0.51);
}

}  // namespace
}  // namespace ridgetally
