#include "gauge/gauge.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ridgetally {
namespace {

// Similar triangles: fabric 3 mm above the ruler seen from 400 mm looks larger by 3 / 397 = 0.76 %.
TEST(SurfaceHeight, FollowsSimilarTriangles) {
    const SurfaceHeight height{400.0, 0.0, 3.0};
    EXPECT_NEAR(1.0 / height.correction() - 1.0, 3.0 / 397.0, 1e-12);
    EXPECT_DOUBLE_EQ((SurfaceHeight{400.0, 3.0, 3.0}).correction(), 1.0);
    EXPECT_DOUBLE_EQ((SurfaceHeight{0.0, 0.0, 3.0}).correction(), 1.0);
}

TEST(Gauge, CountsPerTenCentimetres) {
    const Measured pitch_px = measured(20.0, {{"stitch scatter", 0.01}});
    const auto gauge = gauge_per_10cm(pitch_px, 4.0, {400.0, 0.0, 0.0}, {{"camera tilt", 0.02}});
    EXPECT_DOUBLE_EQ(gauge.value, 20.0);
    EXPECT_NEAR(gauge.relative_std(), std::hypot(0.01, 0.02), 1e-12);
}

TEST(SwatchExtent, OfATurnedRectangle) {
    PatchSource source;
    source.photo_from_plane = PhotoFromObject{{8, 0, 40, 0, 8, 60, 0, 0, 1}};
    const double turn = 0.4;
    for (const auto& [x, y] : {std::pair{0.0, 0.0}, {120.0, 0.0}, {120.0, 90.0}, {0.0, 90.0}}) {
        source.region.outline_px.push_back(source.photo_from_plane(
            ObjectPoint{std::cos(turn) * x - std::sin(turn) * y, std::sin(turn) * x + std::cos(turn) * y}));
    }
    const auto extent = swatch_extent(source, turn);
    ASSERT_TRUE(extent);
    EXPECT_NEAR(extent->width_mm, 120.0, 1.0);
    EXPECT_NEAR(extent->height_mm, 90.0, 1.0);
    source.region.outline_px.resize(2);
    EXPECT_FALSE(swatch_extent(source, turn));
}

}  // namespace
}  // namespace ridgetally
