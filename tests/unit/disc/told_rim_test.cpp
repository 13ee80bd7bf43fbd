#include "disc/told_rim.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ridgetally {
namespace {

/// 2 px a mm.
PhotoFromObject flat_view() {
    PhotoFromObject view;
    view.matrix = {2.0, 0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 1.0};
    return view;
}

/// Points of a circle of 80 mm about (200, 150) mm, at these angles in degrees.
std::vector<PhotoPoint> on_circle(const std::vector<double>& angles_deg) {
    std::vector<PhotoPoint> points;
    for (const double angle : angles_deg) {
        const double a = angle * std::numbers::pi / 180.0;
        points.push_back({2.0 * (200.0 + 80.0 * std::cos(a)), 2.0 * (150.0 + 80.0 * std::sin(a))});
    }
    return points;
}

TEST(ToldRim, EvenPointsOfACircleGiveTheCircle) {
    for (const auto& angles : {std::vector<double>{0, 120, 240}, {300, 0, 60, 120, 180, 240}}) {
        const auto outline = told_disc(on_circle(angles), flat_view());
        ASSERT_TRUE(outline.ok());
        EXPECT_NEAR(outline->area_diameter_mm(), 160.0, 0.01);
        EXPECT_NEAR(outline->centre_mm.x, 200.0, 0.1);
        EXPECT_NEAR(outline->centre_mm.y, 150.0, 0.1);
        EXPECT_DOUBLE_EQ(outline->px_per_mm, 2.0);
        EXPECT_DOUBLE_EQ(outline->part_of(RimPlace::edge), 1.0);
    }
}

TEST(ToldRim, UnevenPointsGiveTheCircleToAPerCent) {
    const auto outline = told_disc(on_circle({0, 20, 45, 60, 130, 160, 215, 250, 290, 330}), flat_view());
    ASSERT_TRUE(outline.ok());
    EXPECT_NEAR(outline->area_diameter_mm(), 160.0, 1.6);
}

TEST(ToldRim, PointsThatGoAroundNothingAreRefused) {
    const std::vector<PhotoPoint> line = {{0, 0}, {100, 0}, {200, 0}, {300, 0}};
    for (const auto& points : {std::vector<PhotoPoint>{}, on_circle({0, 90}), line}) {
        const auto outline = told_disc(points, flat_view());
        ASSERT_FALSE(outline.ok());
        EXPECT_EQ(outline.refusal().code, "bad-rim");
    }
}

}  // namespace
}  // namespace ridgetally
