#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// How much more a pixel of the strip looks like the disc than like what it lies on, CV_32FC1: the logarithm
/// of the ratio of their colour histograms plus that of their histograms of local contrast (a shadow is as
/// even as the table it falls on, yarn is not). `strip_ycc` is CV_8UC3; `inside` and `outside` (CV_8UC1) mark
/// pixels taken for either. The ground is learned anew for every sector of the circle, so that a shadow on
/// one side is known as ground there.
[[nodiscard]] cv::Mat rim_contrast(const cv::Mat& strip_ycc, const cv::Mat& inside, const cv::Mat& outside);

}  // namespace ridgetally
