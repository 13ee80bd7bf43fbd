#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// Luma of a BGR picture (ITU-R BT.601 weights), CV_8UC1.
[[nodiscard]] cv::Mat grey_of(const cv::Mat& bgr);

}  // namespace ridgetally
