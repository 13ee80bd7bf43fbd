#include <gtest/gtest.h>

#include <numbers>

#include "scale/flat/flat_reference.h"
#include "scale/flat/rim.h"
#include "unit/scale_flat/drawn_photo.h"

namespace ridgetally {
namespace {

using testing::CameraPlace;

FlatReference quarter() {
    return flat_reference_from("coin:usd-0.25", load_catalog(RIDGETALLY_SOURCE_DIR "/models").value())
        .value();
}

/// A disc of made-up coinage: raised rim, relief inside.
cv::Vec3d coin_face(double radius, double diameter, const ObjectPoint& p) {
    if (radius > 0.46 * diameter) return {200, 205, 210};
    return cv::Vec3d(150, 155, 160) + cv::Vec3d(1, 1, 1) * (18.0 * std::sin(p.x) * std::cos(0.7 * p.y));
}

testing::TableTop table_with_coin(double diameter) {
    return [=](const ObjectPoint& p) -> cv::Vec3d {
        const double radius = std::hypot(p.x, p.y);
        if (radius <= diameter / 2) return coin_face(radius, diameter, p);
        if (testing::in_box(p, -60, 25, 120, 90)) return testing::fabric(p);
        return testing::wood(p);
    };
}

CameraPlace above_coin() {
    CameraPlace place;
    place.anchor_mm = {0.0, 40.0};
    place.distance_mm = 280.0;
    return place;
}

// United States Mint, Coin Specifications: quarter dollar 24.26 mm.
TEST(FindCoin, DiameterIsWithinHalfAPercent) {
    for (const double tilt : {0.0, 8.0, 16.0}) {
        SCOPED_TRACE(tilt);
        CameraPlace place = above_coin();
        place.tilt_along_deg = tilt;
        place.turn_deg = 30.0;
        const CameraPose camera = testing::camera_at(place);
        const Photo photo = testing::drawn(table_with_coin(24.26), camera, place.photo_size, 2.0, 9);
        const auto reference = find_flat_reference(photo, quarter());
        ASSERT_TRUE(reference.ok()) << reference.refusal().message;
        ASSERT_EQ(reference->lines.size(), 1U);
        const auto& marks = reference->lines.front().marks;
        ASSERT_EQ(marks.size(), 2U);
        EXPECT_DOUBLE_EQ(marks[1].position_mm - marks[0].position_mm, 24.26);
        const auto truth = *inverse(photo_from_plane(camera, 0.0));
        const auto a = truth(marks[0].foot_px);
        const auto b = truth(marks[1].foot_px);
        EXPECT_NEAR(std::hypot(a.x - b.x, a.y - b.y) / 24.26, 1.0, 0.005);
        EXPECT_EQ(reference->kind, "coin");
    }
}

std::string refusal_code(const testing::TableTop& table) {
    const CameraPlace place = above_coin();
    const Photo photo = testing::drawn(table, testing::camera_at(place), place.photo_size, 2.0, 13);
    const auto outcome = find_flat_reference(photo, quarter());
    return outcome ? "found" : outcome.refusal().code;
}

TEST(FindCoin, NothingRoundIsRefused) {
    EXPECT_EQ(refusal_code(testing::wood), "reference-not-found");
    EXPECT_EQ(refusal_code(testing::fabric), "reference-not-found");
}

TEST(FindCoin, HalfCoveredIsRefused) {
    EXPECT_EQ(refusal_code([](const ObjectPoint& p) -> cv::Vec3d {
                  return p.y > 0.0 ? testing::fabric(p) : table_with_coin(24.26)(p);
              }),
              "reference-not-found");
}

TEST(FindCoin, TwoSizesAreAmbiguous) {
    EXPECT_EQ(refusal_code([](const ObjectPoint& p) -> cv::Vec3d {
                  const ObjectPoint q{p.x - 60.0, p.y};
                  const double radius = std::hypot(q.x, q.y);
                  return radius < 16.0 ? coin_face(radius, 32.0, q) : table_with_coin(24.26)(p);
              }),
              "reference-ambiguous");
}

// Points of a known ellipse: half axes 40 and 30, turned by 25 degrees.
TEST(EllipseThrough, KnownEllipseComesBackDespiteStrays) {
    const double turn = 25.0 / degrees_per_radian;
    std::vector<cv::Point2d> points;
    for (int i = 0; i < 72; ++i) {
        const double a = 2.0 * std::numbers::pi * i / 72;
        const double x = 40.0 * std::cos(a), y = 30.0 * std::sin(a);
        points.emplace_back(500.0 + x * std::cos(turn) - y * std::sin(turn),
                            300.0 + x * std::sin(turn) + y * std::cos(turn));
    }
    for (const std::size_t i : {3U, 4U, 5U, 40U}) points[i] *= 1.02;
    const auto rim = ellipse_through(points);
    ASSERT_TRUE(rim);
    EXPECT_NEAR(rim->half_long_px, 40.0, 0.05);
    EXPECT_NEAR(rim->half_short_px, 30.0, 0.05);
    EXPECT_NEAR(rim->middle.x, 500.0, 0.05);
    EXPECT_NEAR(std::abs(rim->along_long.x * std::sin(turn) - rim->along_long.y * std::cos(turn)), 0.0,
                0.005);
    EXPECT_FALSE(ellipse_through({{0, 0}, {1, 1}, {2, 2}, {3, 3}, {4, 4}, {5, 5}, {6, 6}}));
}

}  // namespace
}  // namespace ridgetally
