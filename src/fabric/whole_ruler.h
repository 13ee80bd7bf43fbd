#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// The whole of a ruler of which the part with the marks was `found` (CV_8UC1, like the result; `bgr` of the
/// same size): what lies beside it, hangs together with it and has colours that are common on it and rare
/// elsewhere in the picture.
[[nodiscard]] cv::Mat whole_ruler(const cv::Mat& bgr, const cv::Mat& found);

}  // namespace ridgetally
