#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <optional>

namespace ridgetally {

/// Four corners in the photo, clockwise as seen (y down).
using Quad = std::array<cv::Point2d, 4>;

/// The camera as far as a quadrilateral needs it.
struct ViewPriors {
    double focal_px = 0.0;
    bool focal_known = false;  ///< from the photo, not assumed
    cv::Point2d principal_px;
};

/// The rectangle a quadrilateral would be on a plane (Zhang, IEEE TPAMI 22(11), 2000, section 2.3: the
/// columns of its homography without the camera matrix are the sides).
struct QuadShape {
    double aspect = 0.0;    ///< length of the side 0-1 over that of 1-2
    double cosine = 0.0;    ///< of the angle between them; 0 for a rectangle
    double tilt_deg = 0.0;  ///< of its plane
};
[[nodiscard]] std::optional<QuadShape> shape_of(const Quad& quad, const ViewPriors& view);

[[nodiscard]] double area_of(const Quad& quad);
[[nodiscard]] double shortest_side(const Quad& quad);
/// Convex, clockwise, corners inside a picture of this size with a margin of `inset` px.
[[nodiscard]] bool is_proper(const Quad& quad, const cv::Size& size, double inset);
/// The same quadrilateral starting at its next corner.
[[nodiscard]] Quad turned(const Quad& quad);
/// Intersection of two lines given by a point and a direction; none where they are parallel.
[[nodiscard]] std::optional<cv::Point2d> crossing(const cv::Point2d& p, const cv::Point2d& along_p,
                                                  const cv::Point2d& q, const cv::Point2d& along_q);

}  // namespace ridgetally
