#pragma once

#include <string>
#include <vector>

#include "rectify/mark_model.h"

namespace ridgetally {

/// What is held before the marks are looked at.
struct PosePriors {
    double focal_px = 0.0;
    FocalSource focal_source = FocalSource::assumed;
    double focal_relative_std = 0.0;
    double tilt_std_rad = 0.0;  ///< per axis, about straight down
    PhotoPoint principal_px;
    double point_noise_px = 0.3;  ///< expected of one mark, before its neighbours tell
};

/// A camera pose with its covariance about an anchor point.
struct PoseEstimate {
    CameraPose pose;
    PoseCovariance covariance{};
    ObjectPoint anchor_mm;
    Bend bend;                       ///< zero for a straight ruler
    double lens_relative_std = 0.0;  ///< see rectification.h
    std::vector<std::string> notes;
    bool settled = false;
};

/// Camera over the marks: robust least squares on the marks' places along and across the line and on their
/// directions, all lines at once, with the priors. The first line must hold two marks or more at different
/// positions; lines after it that hold fewer than four are left out.
[[nodiscard]] PoseEstimate pose_from_marks(const std::vector<MarkLine>& lines, double correction,
                                           const PosePriors& priors);

/// Pose straight above a line: the place, direction and mean scale of its marks, no tilt.
[[nodiscard]] CameraPose upright_pose(const std::vector<SeenMark>& marks, const ObjectPoint& anchor,
                                      const PosePriors& priors);

}  // namespace ridgetally
