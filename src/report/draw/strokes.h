#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// A line with an edge in a second colour, in pixels of the picture; corners may lie between pixels.
struct StrokeStyle {
    cv::Scalar colour;
    cv::Scalar casing;
    double width_px = 2.0;
    double casing_px = 1.0;  ///< on each side; 0 for none
};

/// Whether the last point is joined to the first.
enum class Ends { open, joined };

/// Draws a polyline, anti-aliased. Fewer than two points draw nothing.
void draw_stroke(cv::Mat& picture, const std::vector<cv::Point2d>& points, const StrokeStyle& style,
                 Ends ends = Ends::open);

/// A filled dot with an edge.
void draw_dot(cv::Mat& picture, const cv::Point2d& centre, double radius_px, const StrokeStyle& style);

}  // namespace ridgetally
