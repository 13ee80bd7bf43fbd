#include "scale/flat/edge_line.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "core/random.h"
#include "scale/flat/quad.h"

namespace ridgetally {
namespace {

/// A straight edge between two colours through (60, y0) with the given slope, area-sampled exactly.
cv::Mat two_colours(double y0, double slope, const cv::Vec3d& above, const cv::Vec3d& below) {
    cv::Mat picture(100, 120, CV_8UC3);
    Random random(17);
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x) {
            const double part = std::clamp(y0 + slope * (x - 60) - y + 0.5, 0.0, 1.0);
            const cv::Vec3d colour = above * part + below * (1.0 - part);
            for (int c = 0; c < 3; ++c)
                picture.at<cv::Vec3b>(y, x)[c] =
                    cv::saturate_cast<uchar>(colour[c] + random.normal(0.0, 1.5));
        }
    cv::GaussianBlur(picture, picture, cv::Size(0, 0), 0.9);
    return picture;
}

TEST(EdgeLine, LiesWithinATwentiethOfAPixel) {
    for (const double y0 : {50.0, 50.3, 49.55}) {
        const auto picture = two_colours(y0, 0.03, {200, 200, 200}, {60, 60, 60});
        const auto side = find_side(picture, {10, 48.5}, {110, 51.5}, {0, 1}, 0.05, {});
        ASSERT_TRUE(side);
        const double at_60 = side->through.y + side->along.y / side->along.x * (60 - side->through.x);
        EXPECT_NEAR(at_60, y0, 0.05);
        EXPECT_GT(side->support, 0.95);
    }
}

// Blue against yellow-brown of the same luma (ITU-R BT.601: 0.114 B + 0.587 G + 0.299 R = 100 for both).
TEST(EdgeLine, ColourAloneIsEnough) {
    const auto picture = two_colours(50.0, 0.0, {200, 100, 62}, {20, 100, 131});
    const auto side = find_side(picture, {10, 51}, {110, 51}, {0, 1}, 0.05, {});
    ASSERT_TRUE(side);
    EXPECT_NEAR(side->through.y, 50.0, 0.1);
}

TEST(EdgeLine, NoEdgeIsNone) {
    const auto picture = two_colours(500.0, 0.0, {120, 120, 120}, {120, 120, 120});
    EXPECT_FALSE(find_side(picture, {10, 51}, {110, 51}, {0, 1}, 0.05, {}));
}

// A card of 85.60 x 53.98 mm seen straight and from 30 degrees, projected by hand: x = f X / Z, y = f Y / Z
// with X = 42.8, Y = +-26.99 cos 30, Z = 400 +- 26.99 sin 30, f = 1000.
TEST(Quad, ShapeIsThatOfTheRectangleBeforeItWasSeen) {
    const ViewPriors view{1000.0, true, {0.0, 0.0}};
    const double y = 26.99 * std::sqrt(3.0) / 2.0, z = 26.99 / 2.0;
    const auto seen = [&](double x, double side) {
        return cv::Point2d(1000.0 * x / (400.0 + side * z), 1000.0 * side * y / (400.0 + side * z));
    };
    const auto shape = shape_of({seen(-42.8, -1), seen(42.8, -1), seen(42.8, 1), seen(-42.8, 1)}, view);
    ASSERT_TRUE(shape);
    EXPECT_NEAR(shape->aspect, 85.60 / 53.98, 1e-4);
    EXPECT_NEAR(shape->cosine, 0.0, 1e-5);
    EXPECT_NEAR(shape->tilt_deg, 30.0, 0.01);
}

TEST(Quad, CrossingAndOrder) {
    const auto p = crossing({0, 0}, {1, 1}, {4, 0}, {0, 1});
    ASSERT_TRUE(p);
    EXPECT_NEAR(p->x, 4.0, 1e-12);
    EXPECT_NEAR(p->y, 4.0, 1e-12);
    EXPECT_FALSE(crossing({0, 0}, {1, 1}, {4, 0}, {2, 2}));
    const Quad square = {cv::Point2d(10, 10), {50, 10}, {50, 40}, {10, 40}};
    EXPECT_TRUE(is_proper(square, {100, 100}, 1.0));
    EXPECT_FALSE(is_proper({square[0], square[3], square[2], square[1]}, {100, 100}, 1.0));
    EXPECT_FALSE(is_proper(square, {50, 100}, 1.0));
    EXPECT_DOUBLE_EQ(area_of(square), 1200.0);
    EXPECT_DOUBLE_EQ(shortest_side(square), 30.0);
}

}  // namespace
}  // namespace ridgetally
