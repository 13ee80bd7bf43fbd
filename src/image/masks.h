#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry.h"

namespace ridgetally {

/// Filled polygons on a picture `scale` times as large as the photo: CV_8UC1 of `size`, 255 inside any of
/// them. Those with fewer than three corners are left out.
[[nodiscard]] cv::Mat polygon_mask(const std::vector<std::vector<PhotoPoint>>& polygons, double scale,
                                   cv::Size size);

/// Otsu's threshold (N. Otsu, IEEE SMC 9(1), 1979) of a CV_8UC1 picture over the places where `keep_out`, of
/// its size, is 0; 0 where there are none.
[[nodiscard]] double otsu_threshold(const cv::Mat& bytes, const cv::Mat& keep_out);

/// A disc as structuring element of cv::dilate and its kin.
[[nodiscard]] cv::Mat round_element(int radius_px);

}  // namespace ridgetally
