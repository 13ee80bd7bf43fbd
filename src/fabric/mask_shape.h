#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "core/geometry.h"

namespace ridgetally {

// Shapes of masks: CV_8UC1, 255 inside.

/// Connected parts of a mask of at least that area, largest first, holes filled.
[[nodiscard]] std::vector<cv::Mat> pieces_of(const cv::Mat& mask, double least_area_px);

/// The mask without what is narrower than two margins and sticks out: a tail, a stray loop or a finger tip,
/// not the swatch. Corners and edge loops come back as far as half a margin.
[[nodiscard]] cv::Mat without_tails(const cv::Mat& mask, int margin_px);

/// The convex hull of all parts together, filled.
[[nodiscard]] cv::Mat convex_hull_of(const cv::Mat& mask);

/// Share of its convex hull that the mask fills, `keep_out` left out of both.
[[nodiscard]] double solidity_of(const cv::Mat& mask, const cv::Mat& hull, const cv::Mat& keep_out);

/// Polygon around the largest part in the photo, of which the mask shows `scale` px a px.
[[nodiscard]] std::vector<PhotoPoint> outline_of(const cv::Mat& mask, double scale);

/// Whether more than a 40th of the width lies on the mask's border: the frame cuts it.
[[nodiscard]] bool touches_frame(const cv::Mat& mask);

/// Direction modulo 90 degrees that most of the outline runs along; none where it is ragged or round.
[[nodiscard]] std::optional<double> edge_direction(const cv::Mat& mask);

}  // namespace ridgetally
