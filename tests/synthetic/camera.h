#pragma once

#include <opencv2/core.hpp>

#include "synthetic/vec3.h"

namespace ridgetally::synthetic {

/// A phone held over the table. The picture's centre looks at the target.
struct Camera {
    int width_px = 1632;
    int height_px = 1224;
    double focal35_mm = 26.0;    ///< EXIF FocalLengthIn35mmFilm
    double distance_mm = 380.0;  ///< from the lens to the target, along the optical axis
    double pitch_deg = 0.0;      ///< tips the optical axis in y
    double yaw_deg = 0.0;        ///< tips the optical axis in x
    double roll_deg = 0.0;       ///< turns the camera about its axis
    double target_x_mm = 0.0;
    double target_y_mm = 0.0;
    double k1 = 0.0;  ///< radial distortion: r' = r (1 + k1 r^2), r in half diagonals of the frame
};

/// A point of the picture (pixels, centre of the top left pixel is 0, 0) and its depth along the axis.
struct Projected {
    double x = 0.0;
    double y = 0.0;
    double depth_mm = 0.0;
};

/// Pinhole projection of one camera; `pinhole` leaves the lens distortion out, `photo` has it.
class Projector {
  public:
    explicit Projector(const Camera& camera);

    [[nodiscard]] Projected pinhole(const Vec3& point) const;
    [[nodiscard]] cv::Point2d photo(const Vec3& point) const;
    /// Pinhole picture of the plane z = height: maps (x_mm, y_mm, 1) to pixels.
    [[nodiscard]] cv::Matx33d pinhole_from_plane(double height_mm) const;
    /// Where a pinhole pixel lands in the distorted photo, and back.
    [[nodiscard]] cv::Point2d distorted(const cv::Point2d& pinhole) const;
    [[nodiscard]] cv::Point2d undistorted(const cv::Point2d& photo) const;

    [[nodiscard]] double focal_px() const { return focal_px_; }
    [[nodiscard]] double tilt_deg() const;
    [[nodiscard]] const Vec3& centre() const { return centre_; }
    /// A direction of the scene in camera axes: x right, y down, z towards the viewer.
    [[nodiscard]] Vec3 in_camera_axes(const Vec3& direction) const;

  private:
    Camera camera_;
    double focal_px_ = 0.0;
    double half_diagonal_px_ = 0.0;
    cv::Point2d principal_;
    Vec3 centre_;
    Vec3 right_;
    Vec3 down_;
    Vec3 forward_;
};

}  // namespace ridgetally::synthetic
