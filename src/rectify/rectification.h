#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/geometry.h"
#include "core/measured.h"
#include "rectify/camera_pose.h"

namespace ridgetally {

/// The plane of the reference's face as the camera saw it. Object millimetres run along the first graduation:
/// x = position_mm of its marks times the correction, y = 0 on their feet; for cards and sheets as in
/// `ScaleReference::matches`.
struct Rectification {
    PhotoFromObject photo_from_object;  ///< of the plane z = 0, the face of the reference object
    CameraPose pose;
    PoseCovariance covariance{};  ///< of `pose`, moved about `reference_middle_mm`
    double tilt_deg = 0.0;        ///< between the optical axis and the plane's normal
    double tilt_std_deg = 0.0;    ///< standard uncertainty of that angle
    double camera_distance_mm = 0.0;
    Measured px_per_mm;  ///< of the photo, in the middle of the reference, along it; its budget is the
                         ///< reference's own
    PhotoPoint reference_middle_px;
    ObjectPoint reference_middle_mm;
    std::vector<Contribution> reference_parts;  ///< the same everywhere: the object's tolerance, a bent tape
    std::vector<std::string> notes;             ///< what was left out and why, for the trace
};

/// The plane parallel to the reference's face at `height_mm` above it (towards the camera).
[[nodiscard]] PhotoFromObject photo_from_plane_at(const Rectification& rectification, double height_mm);

/// Relative standard uncertainty of lengths measured around `where` on the plane at `height_mm`: the
/// reference's own budget, the tilt's lever arm from the reference, the focal length, the height's effect,
/// each a named part ("reference marks", "camera tilt", "focal length", "lens distortion", "height", ...).
/// Given a direction of the object plane (degrees from its x axis), for lengths along it; else the root mean
/// square over all directions.
[[nodiscard]] std::vector<Contribution> scale_budget_at(const Rectification& rectification,
                                                        const PhotoPoint& where, double height_mm,
                                                        double height_std_mm,
                                                        std::optional<double> direction_deg = std::nullopt);

}  // namespace ridgetally
