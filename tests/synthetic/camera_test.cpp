#include "synthetic/camera.h"

#include <gtest/gtest.h>

#include "core/random.h"
#include "core/units.h"

namespace ridgetally::synthetic {
namespace {

Camera drawn_camera(Random& random) {
    Camera c;
    c.width_px = random.whole(400, 3000);
    c.height_px = random.whole(400, 3000);
    c.focal35_mm = random.uniform(22.0, 60.0);
    c.distance_mm = random.uniform(150.0, 900.0);
    c.pitch_deg = random.uniform(-25.0, 25.0);
    c.yaw_deg = random.uniform(-25.0, 25.0);
    c.roll_deg = random.uniform(-180.0, 180.0);
    c.target_x_mm = random.uniform(-50.0, 50.0);
    c.target_y_mm = random.uniform(-50.0, 50.0);
    return c;
}

/// x = K R (X - C), the textbook's finite projective camera with R a product of elementary rotations
/// (Hartley and Zisserman, Multiple View Geometry, 2nd ed., equation 6.11), in the camera's own order of
/// turns.
cv::Point2d textbook_projection(const Camera& c, const Vec3& point) {
    const double p = c.pitch_deg / degrees_per_radian, y = c.yaw_deg / degrees_per_radian,
                 r = c.roll_deg / degrees_per_radian;
    const cv::Matx33d to_camera{1, 0, 0, 0, 1, 0, 0, 0, -1};  // straight down: forward is -z
    const cv::Matx33d pitch{1, 0, 0, 0, std::cos(p), std::sin(p), 0, -std::sin(p), std::cos(p)};
    const cv::Matx33d yaw{std::cos(y), 0, std::sin(y), 0, 1, 0, -std::sin(y), 0, std::cos(y)};
    const cv::Matx33d roll{std::cos(r), std::sin(r), 0, -std::sin(r), std::cos(r), 0, 0, 0, 1};
    const cv::Matx33d rotation = roll * to_camera * yaw * pitch;
    const cv::Vec3d forward = rotation.t() * cv::Vec3d(0, 0, 1);
    const cv::Vec3d centre = cv::Vec3d(c.target_x_mm, c.target_y_mm, 0) - c.distance_mm * forward;
    const double f = c.focal35_mm * std::hypot(c.width_px, c.height_px) / std::hypot(36.0, 24.0);
    const cv::Matx33d k{f, 0, (c.width_px - 1) / 2.0, 0, f, (c.height_px - 1) / 2.0, 0, 0, 1};
    const cv::Vec3d x = k * rotation * (cv::Vec3d(point.x, point.y, point.z) - centre);
    return {x[0] / x[2], x[1] / x[2]};
}

TEST(Camera, ProjectsAsTheTextbookCamera) {
    Random random(5);
    for (int i = 0; i < 200; ++i) {
        const Camera camera = drawn_camera(random);
        const Vec3 point{random.uniform(-90, 90), random.uniform(-90, 90), random.uniform(0, 20)};
        const Projected got = Projector(camera).pinhole(point);
        const cv::Point2d want = textbook_projection(camera, point);
        EXPECT_NEAR(got.x, want.x, 1e-6);
        EXPECT_NEAR(got.y, want.y, 1e-6);
    }
}

TEST(Camera, PlaneHomographyIsTheProjectionOfThePlane) {
    Random random(6);
    for (int i = 0; i < 100; ++i) {
        const Camera camera = drawn_camera(random);
        const Projector projector(camera);
        const double height = random.uniform(0.0, 15.0), x = random.uniform(-80, 80),
                     y = random.uniform(-80, 80);
        const cv::Vec3d h = projector.pinhole_from_plane(height) * cv::Vec3d(x, y, 1.0);
        const Projected p = projector.pinhole({x, y, height});
        EXPECT_NEAR(h[0] / h[2], p.x, 1e-6);
        EXPECT_NEAR(h[1] / h[2], p.y, 1e-6);
    }
}

TEST(Camera, LooksAtItsTargetFromItsDistance) {
    Random random(7);
    for (int i = 0; i < 50; ++i) {
        const Camera camera = drawn_camera(random);
        const Projector projector(camera);
        const Projected p = projector.pinhole({camera.target_x_mm, camera.target_y_mm, 0.0});
        EXPECT_NEAR(p.x, (camera.width_px - 1) / 2.0, 1e-6);
        EXPECT_NEAR(p.depth_mm, camera.distance_mm, 1e-9);
        const double tilt = std::acos(std::cos(camera.pitch_deg / degrees_per_radian) *
                                      std::cos(camera.yaw_deg / degrees_per_radian));
        EXPECT_NEAR(projector.tilt_deg(), tilt * degrees_per_radian, 1e-9);
    }
}

TEST(Camera, StraightDownAMillimetreIsFocalOverDistancePixels) {
    Camera camera;
    camera.focal35_mm = 26.0;
    camera.distance_mm = 400.0;
    const Projector projector(camera);
    const double px = projector.pinhole({1, 0, 0}).x - projector.pinhole({0, 0, 0}).x;
    EXPECT_NEAR(px, projector.focal_px() / 400.0, 1e-9);
    // What lies h nearer looks larger by h / (D - h).
    const double raised = projector.pinhole({1, 0, 3}).x - projector.pinhole({0, 0, 3}).x;
    EXPECT_NEAR(raised / px - 1.0, 3.0 / 397.0, 1e-9);
}

TEST(Camera, LensDistortionIsUndone) {
    Camera camera;
    camera.k1 = -0.012;
    const Projector projector(camera);
    for (const cv::Point2d p :
         {cv::Point2d(0, 0), cv::Point2d(1600, 1200), cv::Point2d(816, 100), cv::Point2d(815.5, 611.5)}) {
        const cv::Point2d back = projector.undistorted(projector.distorted(p));
        EXPECT_NEAR(back.x, p.x, 1e-6);
        EXPECT_NEAR(back.y, p.y, 1e-6);
    }
    EXPECT_GT(cv::norm(projector.distorted({0, 0})), 5.0);  // it does something
}

}  // namespace
}  // namespace ridgetally::synthetic
