#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// Row of the strip where the disc begins in every column: the closed line that leaves the most evidence for
/// the disc below it and for the ground above it, at a price for every step (shortest path by dynamic
/// programming; A. Amini, T. Weymouth, R. Jain, IEEE PAMI 12(9), 1990). `contrast` is CV_32FC1.
[[nodiscard]] std::vector<int> closed_rim(const cv::Mat& contrast, double step_price);

/// The same line between pixels: where the colour stands half-way from what lies just inside to what lies
/// just outside the given row. `strip_ycc` is CV_8UC3 (YCrCb).
[[nodiscard]] std::vector<double> half_way_rim(const cv::Mat& strip_ycc, const std::vector<int>& rim);

/// Running median of a closed sequence over `reach` neighbours to either side; entries with weight 0 do not
/// count. Throws std::invalid_argument where the sizes differ.
[[nodiscard]] std::vector<double> closed_median(const std::vector<double>& values,
                                                const std::vector<bool>& counts, int reach);

}  // namespace ridgetally
