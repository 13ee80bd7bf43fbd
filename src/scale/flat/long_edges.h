#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// A straight line of the picture with the stretches of it that are edges.
struct LongEdge {
    cv::Point2d through;
    cv::Point2d along;                   ///< unit
    std::vector<cv::Point2d> stretches;  ///< x: from, y: to, px along the line from `through`; merged, sorted
    double length_px = 0.0;              ///< of all stretches
    double weight = 0.0;                 ///< length times contrast, the contrast up to 40 grey levels
};

/// Straight edges of all colour channels, collinear ones joined, the weightiest first, at most `most` of
/// each of twelve directions: a table of planks has hundreds along its grain.
[[nodiscard]] std::vector<LongEdge> long_edges(const cv::Mat& bgr, double least_px, std::size_t most);

/// Part of the stretch from a to b of the line (px along it) that is edge.
[[nodiscard]] double coverage(const LongEdge& edge, double a, double b);

}  // namespace ridgetally
