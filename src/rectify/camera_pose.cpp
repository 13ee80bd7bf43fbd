#include "rectify/camera_pose.h"

#include <cmath>
#include <stdexcept>

#include "core/units.h"

namespace ridgetally {
namespace {

/// Rotation matrix of a rotation vector (Rodrigues' formula; Hartley and Zisserman, appendix A4.3.2).
Matrix3 rotation_of(double x, double y, double z) {
    const double angle = std::sqrt(x * x + y * y + z * z);
    const double s = angle > 1e-9 ? std::sin(angle) / angle : 1.0;
    const double c = angle > 1e-9 ? (1.0 - std::cos(angle)) / (angle * angle) : 0.5;
    return {1 - c * (y * y + z * z), c * x * y - s * z,       c * x * z + s * y,
            c * x * y + s * z,       1 - c * (x * x + z * z), c * y * z - s * x,
            c * x * z - s * y,       c * y * z + s * x,       1 - c * (x * x + y * y)};
}

}  // namespace

Vector3 in_camera(const CameraPose& pose, const ObjectPoint& p) {
    const Matrix3& r = pose.rotation;
    Vector3 result{};
    for (std::size_t i = 0; i < 3; ++i)
        result[i] = r[3 * i] * p.x + r[3 * i + 1] * p.y + pose.translation_mm[i];
    return result;
}

Vector3 plane_normal(const CameraPose& pose) {
    return {pose.rotation[2], pose.rotation[5], pose.rotation[8]};
}

double tilt_deg(const CameraPose& pose) {
    const Vector3 n = plane_normal(pose);
    return std::atan2(std::hypot(n[0], n[1]), n[2]) * degrees_per_radian;
}

CameraPose moved(const CameraPose& pose, const ObjectPoint& anchor, const PoseDelta& delta) {
    const Vector3 at = in_camera(pose, anchor);
    const double u = pose.focal_px * at[0] / at[2] + delta[anchor_u];
    const double v = pose.focal_px * at[1] / at[2] + delta[anchor_v];
    CameraPose result = pose;
    result.focal_px = pose.focal_px * std::exp(delta[log_focal]);
    result.rotation = product(pose.rotation, rotation_of(delta[about_x], delta[about_y], delta[about_z]));
    const double depth = at[2] * std::exp(delta[log_focal] - delta[log_scale]);
    const Vector3 target = {u / result.focal_px * depth, v / result.focal_px * depth, depth};
    result.translation_mm = {};
    const Vector3 turned = in_camera(result, anchor);
    for (std::size_t i = 0; i < 3; ++i) result.translation_mm[i] = target[i] - turned[i];
    return result;
}

PhotoFromObject photo_from_plane(const CameraPose& pose, double height_mm) {
    const Matrix3& r = pose.rotation;
    Matrix3 plane{};
    for (std::size_t i = 0; i < 3; ++i) {
        plane[3 * i] = r[3 * i];
        plane[3 * i + 1] = r[3 * i + 1];
        plane[3 * i + 2] = pose.translation_mm[i] - height_mm * r[3 * i + 2];
    }
    const Matrix3 camera = {
        pose.focal_px, 0, pose.principal_px.x, 0, pose.focal_px, pose.principal_px.y, 0, 0, 1};
    return {product(camera, plane)};
}

std::array<PoseDelta, pose_parameters> independent_moves(const PoseCovariance& covariance) {
    std::array<PoseDelta, pose_parameters> columns{};
    const auto entry = [&](int row, int column) { return covariance[place_of(row, column)]; };
    for (int j = 0; j < pose_parameters; ++j) {
        auto& column = columns[static_cast<std::size_t>(j)];
        for (int i = j; i < pose_parameters; ++i) {
            double rest = entry(i, j);
            for (int k = 0; k < j; ++k) {
                const auto& before = columns[static_cast<std::size_t>(k)];
                rest -= before[static_cast<std::size_t>(i)] * before[static_cast<std::size_t>(j)];
            }
            if (i == j && !(rest > 0.0))
                throw std::invalid_argument("pose covariance is not positive definite");
            column[static_cast<std::size_t>(i)] =
                i == j ? std::sqrt(rest) : rest / column[static_cast<std::size_t>(j)];
        }
    }
    return columns;
}

}  // namespace ridgetally
