#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry.h"

namespace ridgetally {

/// Filled polygons on a picture `scale` times as large as the photo: CV_8UC1 of `size`, 255 inside any of
/// them. Those with fewer than three corners are left out.
[[nodiscard]] cv::Mat polygon_mask(const std::vector<std::vector<PhotoPoint>>& polygons, double scale,
                                   cv::Size size);

/// A disc as structuring element of cv::dilate and its kin.
[[nodiscard]] cv::Mat round_element(int radius_px);

}  // namespace ridgetally
