#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// A luma picture (CV_8UC1) and its halvings, each the mean of 2 x 2 pixels of the one before; four at most,
/// the last at least 100 px wide and high. Pixel centres: level k has its pixel (i, j) at
/// 2^k (i + 1/2) - 1/2 of level 0 (a row or column left over is squeezed in).
using GreyPyramid = std::vector<cv::Mat>;

[[nodiscard]] GreyPyramid grey_pyramid(const cv::Mat& grey);

/// The smallest level whose longer side has at least so many pixels, or level 0 where none has.
/// Throws std::invalid_argument for an empty pyramid.
[[nodiscard]] const cv::Mat& level_of_at_least(const GreyPyramid& pyramid, int long_side_px);

}  // namespace ridgetally
