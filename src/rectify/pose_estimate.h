#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "rectify/camera_pose.h"
#include "rectify/mark_model.h"

namespace ridgetally {

/// What is held before the photo is looked at.
struct PosePriors {
    double focal_px = 0.0;
    FocalSource focal_source = FocalSource::assumed;
    double focal_relative_std = 0.0;
    double tilt_std_rad = 0.0;  ///< per axis, about straight down
    PhotoPoint principal_px;
    double point_noise_px = 0.3;  ///< expected of one point, before its neighbours tell
};

/// A camera pose with its covariance about an anchor point.
struct PoseEstimate {
    CameraPose pose;
    PoseCovariance covariance{};
    ObjectPoint anchor_mm;
    Bend bend;                         ///< zero for a straight ruler
    double uneven_relative_std = 0.0;  ///< of lengths along the marks; see mark_noise.h
    std::vector<std::string> notes;
    bool settled = false;  ///< false where no camera explains the points
};

/// The first seven rows and columns of a covariance.
[[nodiscard]] PoseCovariance pose_part(const cv::Mat_<double>& covariance);

}  // namespace ridgetally
