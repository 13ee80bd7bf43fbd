#pragma once

#include <array>
#include <vector>

#include "core/geometry.h"
#include "core/measured.h"

namespace ridgetally {

/// Where the focal length came from.
enum class FocalSource { exif, assumed };

/// Pinhole camera over the table (Hartley and Zisserman, section 6.1): photo = K (R X + t), principal point
/// in the middle of the frame, square pixels. The object plane is z = 0; z grows towards the camera.
struct CameraPose {
    double focal_px = 0.0;
    FocalSource focal_source = FocalSource::assumed;
    PhotoPoint principal_px;
    Matrix3 rotation = identity3();
    std::array<double, 3> translation_mm{};
};

/// The plane of the ruler's face as the camera saw it.
struct Rectification {
    PhotoFromObject photo_from_object;  ///< of the plane z = 0, the face of the reference object
    CameraPose pose;
    double tilt_deg = 0.0;      ///< between the optical axis and the plane's normal
    double tilt_std_deg = 0.0;  ///< standard uncertainty of that angle
    double camera_distance_mm = 0.0;
    Measured px_per_mm;  ///< of the photo, in the middle of the reference, along it; its budget is the
                         ///< reference's own
    PhotoPoint reference_middle_px;
};

/// The plane parallel to the reference's face at `height_mm` above it (towards the camera).
[[nodiscard]] PhotoFromObject photo_from_plane_at(const Rectification& rectification, double height_mm);

/// Relative standard uncertainty of lengths measured around `where` on the plane at `height_mm`: the
/// reference's own budget, the tilt's lever arm from the reference, the height's effect, each a named part.
[[nodiscard]] std::vector<Contribution> scale_budget_at(const Rectification& rectification,
                                                        const PhotoPoint& where, double height_mm,
                                                        double height_std_mm);

}  // namespace ridgetally
