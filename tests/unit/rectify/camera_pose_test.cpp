#include "rectify/camera_pose.h"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/rectify/made_up_camera.h"

namespace ridgetally {
namespace {

using testing::CameraPlace;

CameraPose straight_above(double focal_px, double distance_mm) {
    CameraPose pose;
    pose.focal_px = focal_px;
    pose.translation_mm = {0.0, 0.0, distance_mm};
    return pose;
}

// Similar triangles: f / D px a mm on the plane, f / (D - h) at a height h. Fabric 3 mm high at 400 mm looks
// 3 / 397 = 0.76 % larger.
TEST(CameraPose, HeightMakesThingsLookLarger) {
    const CameraPose pose = straight_above(1600.0, 400.0);
    const auto scale = [&](double h) { return px_per_mm_along(photo_from_plane(pose, h), {0, 0}, 1, 0); };
    EXPECT_NEAR(scale(0.0), 4.0, 1e-9);
    EXPECT_NEAR(scale(3.0) / scale(0.0) - 1.0, 3.0 / 397.0, 1e-9);
    EXPECT_NEAR(scale(3.0) / scale(0.0) - 1.0, 0.0076, 5e-5);
}

// A plane tilted by t about the x axis: a point y mm from it lies y sin t further, so a ruler 80 mm from the
// fabric at 400 mm costs 80 sin 5 / 400 = 1.7 % at 5 degrees and 3.5 % at 10.
TEST(CameraPose, TiltChangesTheScaleBesideTheRuler) {
    for (const auto& [degrees, cost] : {std::pair{5.0, 0.0174}, {10.0, 0.0347}}) {
        CameraPlace place;
        place.tilt_across_deg = degrees;
        const CameraPose pose = testing::camera_at(place);
        EXPECT_NEAR(tilt_deg(pose), degrees, 1e-9);
        const auto t = photo_from_plane(pose, 0.0);
        const double ratio = px_per_mm_along(t, {0, 0}, 1, 0) / px_per_mm_along(t, {0, 80}, 1, 0);
        EXPECT_NEAR(std::abs(ratio - 1.0), cost, 2e-4);
    }
}

// Along the slope, lengths shrink by the cosine where the axis meets the plane.
TEST(CameraPose, ForeshorteningIsTheCosine) {
    CameraPlace place;
    place.tilt_across_deg = 20.0;
    place.anchor_px = {799.5, 599.5};
    const auto t = photo_from_plane(testing::camera_at(place), 0.0);
    EXPECT_NEAR(px_per_mm_along(t, {0, 0}, 0, 1) / px_per_mm_along(t, {0, 0}, 1, 0),
                std::cos(20.0 / degrees_per_radian), 1e-6);
}

// The anchor's picture stays where it is and as large as it is when focal length or tilt change.
TEST(CameraPose, MovesKeepTheAnchor) {
    CameraPlace place;
    place.anchor_mm = {85.0, 10.0};
    place.tilt_along_deg = 6.0;
    place.turn_deg = 33.0;
    const CameraPose before = testing::camera_at(place);
    PoseDelta delta{};
    delta[log_focal] = 0.2;
    delta[about_x] = 0.1;
    delta[about_y] = -0.05;
    const CameraPose after = moved(before, place.anchor_mm, delta);
    const PhotoPoint a = photo_from_plane(before, 0.0)(place.anchor_mm);
    const PhotoPoint b = photo_from_plane(after, 0.0)(place.anchor_mm);
    EXPECT_NEAR(a.x, b.x, 1e-9);
    EXPECT_NEAR(a.y, b.y, 1e-9);
    EXPECT_NEAR(after.focal_px / in_camera(after, place.anchor_mm)[2],
                before.focal_px / in_camera(before, place.anchor_mm)[2], 1e-9);
    // R stays a rotation: orthonormal columns, determinant 1.
    EXPECT_NEAR(determinant(after.rotation), 1.0, 1e-12);
}

TEST(CameraPose, IndependentMovesRebuildTheCovariance) {
    PoseCovariance covariance{};
    for (int i = 0; i < pose_parameters; ++i)
        for (int j = 0; j < pose_parameters; ++j) covariance[place_of(i, j)] = (i == j ? 2.0 + i : 0.3);
    const auto moves = independent_moves(covariance);
    for (std::size_t i = 0; i < pose_parameters; ++i)
        for (std::size_t j = 0; j < pose_parameters; ++j) {
            double sum = 0.0;
            for (const auto& move : moves) sum += move[i] * move[j];
            EXPECT_NEAR(sum, covariance[i * pose_parameters + j], 1e-12);
        }
    covariance[0] = -1.0;
    EXPECT_THROW((void)independent_moves(covariance), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
