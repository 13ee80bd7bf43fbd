#include "disc/polar.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "unit/disc/drawn_disc.h"

namespace ridgetally {
namespace {

PolarFrame frame() {
    PolarFrame f;
    f.centre_mm = {30.0, 20.0};
    f.photo_from_plane = test::straight_down(5.0);
    f.columns = 360;
    f.rows = 40;
    f.outer_mm = 10.0;
    f.mm_per_row = 0.2;
    return f;
}

TEST(PolarFrame, RowsGoInwardsAndColumnsClockwise) {
    const PolarFrame f = frame();
    const PhotoPoint right = f.photo_point(0, 0);
    EXPECT_NEAR(right.x, 5.0 * 40.0, 1e-9);
    EXPECT_NEAR(right.y, 5.0 * 20.0, 1e-9);
    const PhotoPoint below = f.photo_point(90, 10);  // y grows downwards: clockwise
    EXPECT_NEAR(below.x, 5.0 * 30.0, 1e-9);
    EXPECT_NEAR(below.y, 5.0 * 28.0, 1e-9);
    EXPECT_NEAR(f.row_of(f.radius_mm(17.25)), 17.25, 1e-12);
}

TEST(PolarFrame, UnrolledRingsBecomeRows) {
    const PolarFrame f = frame();
    cv::Mat rings(300, 300, CV_32F);
    for (int y = 0; y < rings.rows; ++y)
        for (int x = 0; x < rings.cols; ++x)
            rings.at<float>(y, x) = static_cast<float>(std::hypot(x - 150.0, y - 100.0));
    const cv::Mat strip = unrolled(rings, f);
    for (const int y : {0, 20, 39}) {
        for (const int x : {0, 77, 200, 359})
            EXPECT_NEAR(strip.at<float>(y, x), 5.0 * f.radius_mm(y), 0.05) << x << "," << y;
    }
}

TEST(PolarFrame, WhatThePhotoDoesNotShowIsKnown) {
    PolarFrame f = frame();
    f.centre_mm = {5.0, 20.0};  // the circle leaves the frame on the left
    const cv::Mat inside = in_picture({300, 300}, f);
    EXPECT_EQ(inside.at<uchar>(0, 0), 255);
    EXPECT_EQ(inside.at<uchar>(0, 180), 0);
}

}  // namespace
}  // namespace ridgetally
