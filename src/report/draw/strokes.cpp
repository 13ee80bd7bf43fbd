#include "report/draw/strokes.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

constexpr int subpixel_bits = 4;
constexpr double far_away_px =
    1e5;  // clipped here, so that a wild point cannot overflow the fixed-point numbers

cv::Point fixed_point(const cv::Point2d& p) {
    const auto coordinate = [](double x) {
        return static_cast<int>(std::lround(std::clamp(x, -far_away_px, far_away_px) * (1 << subpixel_bits)));
    };
    return {coordinate(p.x), coordinate(p.y)};
}

int thickness(double width_px) { return std::max(1, static_cast<int>(std::lround(width_px))); }

}  // namespace

void draw_stroke(cv::Mat& picture, const std::vector<cv::Point2d>& points, const StrokeStyle& style,
                 Ends ends) {
    std::vector<cv::Point> corners;
    corners.reserve(points.size());
    for (const auto& p : points) {
        if (std::isfinite(p.x) && std::isfinite(p.y)) corners.push_back(fixed_point(p));
    }
    if (corners.size() < 2) return;
    const bool joined = ends == Ends::joined;
    if (style.casing_px > 0.0) {
        cv::polylines(picture, corners, joined, style.casing,
                      thickness(style.width_px + 2.0 * style.casing_px), cv::LINE_AA, subpixel_bits);
    }
    cv::polylines(picture, corners, joined, style.colour, thickness(style.width_px), cv::LINE_AA,
                  subpixel_bits);
}

void draw_dot(cv::Mat& picture, const cv::Point2d& centre, double radius_px, const StrokeStyle& style) {
    if (!std::isfinite(centre.x) || !std::isfinite(centre.y)) return;
    const auto disc = [&](double radius, const cv::Scalar& colour) {
        cv::circle(picture, fixed_point(centre), static_cast<int>(std::lround(radius * (1 << subpixel_bits))),
                   colour, cv::FILLED, cv::LINE_AA, subpixel_bits);
    };
    if (style.casing_px > 0.0) disc(radius_px + style.casing_px, style.casing);
    disc(radius_px, style.colour);
}

}  // namespace ridgetally
