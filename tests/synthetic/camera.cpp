#include "synthetic/camera.h"

#include "core/units.h"

namespace ridgetally::synthetic {
namespace {

/// Diagonal of the 36 x 24 mm frame that "35 mm equivalent" refers to (EXIF 2.32, CIPA DC-008).
constexpr double frame_diagonal_mm = 43.266615305567875;

}  // namespace

Projector::Projector(const Camera& camera) : camera_(camera) {
    const double diagonal = std::hypot(camera.width_px, camera.height_px);
    focal_px_ = camera.focal35_mm * diagonal / frame_diagonal_mm;
    half_diagonal_px_ = diagonal / 2.0;
    principal_ = {(camera.width_px - 1) / 2.0, (camera.height_px - 1) / 2.0};

    const double pitch = camera.pitch_deg / degrees_per_radian;
    const double yaw = camera.yaw_deg / degrees_per_radian;
    const double roll = camera.roll_deg / degrees_per_radian;
    forward_ = {std::sin(yaw), std::sin(pitch) * std::cos(yaw), -std::cos(pitch) * std::cos(yaw)};
    const Vec3 level = unit(Vec3{1, 0, 0} - forward_.x * forward_);
    const Vec3 below = cross(level, forward_);  // y down, z up is a left-handed frame
    right_ = std::cos(roll) * level + std::sin(roll) * below;
    down_ = std::cos(roll) * below - std::sin(roll) * level;
    centre_ = Vec3{camera.target_x_mm, camera.target_y_mm, 0.0} - camera.distance_mm * forward_;
}

Projected Projector::pinhole(const Vec3& point) const {
    const Vec3 ray = point - centre_;
    const double depth = dot(ray, forward_);
    return {principal_.x + focal_px_ * dot(ray, right_) / depth,
            principal_.y + focal_px_ * dot(ray, down_) / depth, depth};
}

cv::Point2d Projector::photo(const Vec3& point) const {
    const Projected p = pinhole(point);
    return distorted({p.x, p.y});
}

cv::Matx33d Projector::pinhole_from_plane(double height_mm) const {
    const Vec3 origin = Vec3{0, 0, height_mm} - centre_;
    const auto row = [&](const Vec3& axis) { return cv::Vec3d(axis.x, axis.y, dot(axis, origin)); };
    const cv::Vec3d w = row(forward_);
    const cv::Vec3d x = focal_px_ * row(right_) + principal_.x * w;
    const cv::Vec3d y = focal_px_ * row(down_) + principal_.y * w;
    return {x[0], x[1], x[2], y[0], y[1], y[2], w[0], w[1], w[2]};
}

cv::Point2d Projector::distorted(const cv::Point2d& pinhole) const {
    const cv::Point2d d = pinhole - principal_;
    const double r2 = d.dot(d) / (half_diagonal_px_ * half_diagonal_px_);
    return principal_ + (1.0 + camera_.k1 * r2) * d;
}

cv::Point2d Projector::undistorted(const cv::Point2d& photo) const {
    cv::Point2d guess = photo;
    for (int i = 0; i < 8; ++i) guess += photo - distorted(guess);  // |k1| is small: converges at once
    return guess;
}

double Projector::tilt_deg() const { return std::acos(-forward_.z) * degrees_per_radian; }

Vec3 Projector::in_camera_axes(const Vec3& d) const {
    return {dot(d, right_), dot(d, down_), -dot(d, forward_)};
}

}  // namespace ridgetally::synthetic
