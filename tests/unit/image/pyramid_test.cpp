#include "image/pyramid.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace ridgetally {
namespace {

cv::Mat ramp(int width, int height) {
    cv::Mat picture(height, width, CV_8UC1);
    for (int x = 0; x < width; ++x) picture.col(x) = x % 200;
    return picture;
}

TEST(Pyramid, EachLevelIsTheMeanOfTwoByTwo) {
    const auto pyramid = grey_pyramid(ramp(1600, 1200));
    ASSERT_EQ(pyramid.size(), 4U);
    for (std::size_t k = 1; k < pyramid.size(); ++k) {
        EXPECT_EQ(pyramid[k].cols * 2, pyramid[k - 1].cols);
        EXPECT_EQ(pyramid[k].rows * 2, pyramid[k - 1].rows);
    }
    // Columns 10 and 11 of the ramp: 10.5, rounded to either side.
    EXPECT_NEAR(pyramid[1].at<uchar>(3, 5), 10.5, 0.5);
    // Columns 40 to 47 of the ramp: 43.5; three roundings.
    EXPECT_NEAR(pyramid[3].at<uchar>(3, 5), 43.5, 1.5);
}

TEST(Pyramid, SmallPicturesStayAsTheyAre) { EXPECT_EQ(grey_pyramid(ramp(300, 180)).size(), 1U); }

TEST(Pyramid, TheSmallestLevelThatIsLargeEnough) {
    const auto pyramid = grey_pyramid(ramp(1200, 1600));
    EXPECT_EQ(level_of_at_least(pyramid, 1600).rows, 1600);
    EXPECT_EQ(level_of_at_least(pyramid, 801).rows, 1600);
    EXPECT_EQ(level_of_at_least(pyramid, 800).rows, 800);
    EXPECT_EQ(level_of_at_least(pyramid, 1).rows, 200);
    EXPECT_EQ(level_of_at_least(pyramid, 5000).rows, 1600);
    EXPECT_THROW((void)level_of_at_least({}, 100), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
