#include "disc/strip.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "unit/disc/drawn_disc.h"

namespace ridgetally {
namespace {

/// An oval outline of 50 by 48 mm about (60, 55) mm, 5 px a mm.
DiscOutline oval() {
    DiscOutline outline;
    outline.photo_from_plane = test::straight_down(5.0);
    outline.centre_mm = {60.0, 55.0};
    outline.px_per_mm = 5.0;
    for (int i = 0; i < 720; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / 720;
        outline.radius_mm.push_back(49.0 + std::cos(2.0 * angle));
        outline.places.push_back(RimPlace::edge);
    }
    return outline;
}

cv::Mat rings() {
    cv::Mat picture(600, 700, CV_8U);
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x) {
            const double dx = x / 5.0 - 60.0;
            const double dy = y / 5.0 - 55.0;
            const double rim = 49.0 + std::cos(2.0 * std::atan2(dy, dx));
            const double part = std::hypot(dx, dy) / rim;
            picture.at<uchar>(y, x) = cv::saturate_cast<uchar>(250.0 * part * 0.8);
        }
    }
    return picture;
}

TEST(RoundStrip, RoundsOfAnOvalBecomeStraightRows) {
    RoundStripOptions options;
    options.px_per_mm = 3.0;
    options.outside_mm = 4.0;
    options.inside_mm = 30.0;
    const RoundStrip strip = round_strip(grey_pyramid(rings()), oval(), options);
    EXPECT_NEAR(strip.rim_mm, 49.0, 0.05);
    EXPECT_NEAR(strip.grey.cols, 2.0 * std::numbers::pi * 49.0 * 3.0, 2.0);
    for (const int y : {14, 40, 90}) {
        const double part = 1.0 - (y - strip.rim_row) / 3.0 / strip.rim_mm;
        for (int x = 0; x < strip.grey.cols; x += 61) {
            if (strip.usable.at<uchar>(y, x) == 0) continue;
            EXPECT_NEAR(strip.grey.at<float>(y, x), 200.0 * part, 2.5) << x << "," << y;
        }
    }
}

TEST(RoundStrip, PointsLeadBackToThePhoto) {
    const RoundStrip strip = round_strip(grey_pyramid(rings()), oval(), {});
    const PhotoPoint p = strip.photo_point(0.0, strip.rim_row);
    EXPECT_NEAR(p.x, 5.0 * (60.0 + 50.0), 1.0);
    EXPECT_NEAR(p.y, 5.0 * 55.0, 1.0);
}

TEST(RoundStrip, InnerStripsKeepTheShapeOfStitches) {
    RoundStripOptions options;
    options.true_at = 0.5;
    options.outside_mm = -20.0;
    options.inside_mm = 30.0;
    const RoundStrip strip = round_strip(grey_pyramid(rings()), oval(), options);
    EXPECT_NEAR(strip.grey.cols, 2.0 * std::numbers::pi * 24.5 * options.px_per_mm, 2.0);
    EXPECT_LT(strip.rim_row, 0.0);
}

}  // namespace
}  // namespace ridgetally
