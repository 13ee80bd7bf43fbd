#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

namespace ridgetally {

/// An ellipse of the photo.
struct Rim {
    cv::Point2d middle;
    double half_long_px = 0.0;
    double half_short_px = 0.0;
    cv::Point2d along_long;  ///< unit
    double support = 0.0;    ///< part of the directions from the middle in which an edge lies on it
    double spread_px = 0.0;  ///< rms distance of those edges from it
    double contrast = 0.0;   ///< median
};

/// Ellipse through points by least squares on the conic with its ellipse constraint (Halir and Flusser, WSCG
/// 1998), played down robustly where points are off; none for fewer than six points or no ellipse.
[[nodiscard]] std::optional<Rim> ellipse_through(const std::vector<cv::Point2d>& points);

/// Follows the outline of a disc from a rough circle in the full photo, to a fraction of a pixel. None where
/// less than half of it has an edge.
[[nodiscard]] std::optional<Rim> follow_rim(const cv::Mat& bgr, const cv::Point2d& middle, double radius_px,
                                            double reach_px);

}  // namespace ridgetally
