#include "image/masks.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

TEST(PolygonMask, FillsWhatIsInsideAtItsScale) {
    const cv::Mat mask = polygon_mask({{{20, 10}, {60, 10}, {60, 40}, {20, 40}}}, 0.5, {50, 40});
    // Borders belong to it: 10 to 30 across, 5 to 20 down.
    EXPECT_EQ(cv::countNonZero(mask), 21 * 16);
    EXPECT_EQ(mask.at<uchar>(12, 20), 255);
    EXPECT_EQ(mask.at<uchar>(30, 20), 0);
}

TEST(PolygonMask, JoinsPolygonsAndLeavesOutLinesAndPoints) {
    const std::vector<PhotoPoint> left = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
    const std::vector<PhotoPoint> right = {{10, 0}, {14, 0}, {14, 4}, {10, 4}};
    EXPECT_EQ(cv::countNonZero(polygon_mask({left, right}, 1.0, {20, 10})), 2 * 25);
    EXPECT_EQ(cv::countNonZero(polygon_mask({{{0, 0}, {9, 9}}, {}}, 1.0, {20, 10})), 0);
}

TEST(RoundElement, HasTheRadiusAskedFor) {
    const cv::Mat element = round_element(3);
    EXPECT_EQ(element.size(), cv::Size(7, 7));
    EXPECT_EQ(element.at<uchar>(3, 0), 1);
    EXPECT_EQ(element.at<uchar>(0, 0), 0);
}

}  // namespace
}  // namespace ridgetally
