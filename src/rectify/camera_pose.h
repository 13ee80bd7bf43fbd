#pragma once

#include <array>
#include <vector>

#include "core/geometry.h"

namespace ridgetally {

/// Where the focal length came from.
enum class FocalSource { exif, assumed };

using Vector3 = std::array<double, 3>;

/// Pinhole camera over the table (Hartley and Zisserman, section 6.1): photo = K (R X + t), principal point
/// in the middle of the frame, square pixels. The object plane is z = 0. R is a proper rotation and both
/// pictures have y down, so z grows away from the camera: a point h mm above the plane has z = -h.
struct CameraPose {
    double focal_px = 0.0;
    FocalSource focal_source = FocalSource::assumed;
    PhotoPoint principal_px;
    Matrix3 rotation = identity3();
    Vector3 translation_mm{};
};

/// The seven numbers a pose is moved by, in this order everywhere. The first three come first so that a
/// Cholesky factor of their covariance splits an uncertainty into focal length, tilt and the rest.
enum PoseParameter : int {
    log_focal = 0,  ///< relative change of the focal length, the picture of the anchor staying the same size
    about_x = 1,    ///< rotation about the object's x axis, radians: tilt across a ruler
    about_y = 2,    ///< rotation about the object's y axis, radians: tilt along a ruler
    about_z = 3,    ///< rotation in the object plane, radians
    anchor_u = 4,   ///< shift of the anchor's picture, px
    anchor_v = 5,
    log_scale = 6,  ///< relative change of px per mm at the anchor
};
inline constexpr int pose_parameters = 7;
using PoseDelta = std::array<double, pose_parameters>;
/// Row-major 7 x 7.
using PoseCovariance = std::array<double, std::size_t{pose_parameters} * pose_parameters>;
/// Where in it the covariance of two parameters stands.
[[nodiscard]] constexpr std::size_t place_of(int row, int column) {
    return static_cast<std::size_t>(row) * pose_parameters + static_cast<std::size_t>(column);
}

/// The pose moved by `delta` about the object point `anchor`, which is the one that shifts, turns and scales.
[[nodiscard]] CameraPose moved(const CameraPose& pose, const ObjectPoint& anchor, const PoseDelta& delta);

/// Homography of the plane parallel to the object plane, `height_mm` above it: K [r1 r2 t - h r3].
[[nodiscard]] PhotoFromObject photo_from_plane(const CameraPose& pose, double height_mm);

/// Position of an object point of the plane z = 0 in the camera's frame, mm.
[[nodiscard]] Vector3 in_camera(const CameraPose& pose, const ObjectPoint& p);

/// Normal of the object plane in the camera's frame, pointing away from the camera (the third column of R).
[[nodiscard]] Vector3 plane_normal(const CameraPose& pose);

/// Angle between the optical axis and the plane's normal.
[[nodiscard]] double tilt_deg(const CameraPose& pose);

/// Columns of the Cholesky factor of the covariance: independent moves of one standard deviation each, the
/// first for the focal length, the next two for the tilt (with everything that must follow them).
/// Throws std::invalid_argument where the matrix is not positive definite.
[[nodiscard]] std::array<PoseDelta, pose_parameters> independent_moves(const PoseCovariance& covariance);

}  // namespace ridgetally
