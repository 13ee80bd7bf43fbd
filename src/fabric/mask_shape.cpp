#include "fabric/mask_shape.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/units.h"
#include "image/masks.h"

namespace ridgetally {
namespace {

using Contour = std::vector<cv::Point>;

std::vector<Contour> outer_contours(const cv::Mat& mask) {
    std::vector<Contour> contours;
    cv::findContours(mask.clone(), contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    return contours;
}

}  // namespace

std::vector<cv::Mat> pieces_of(const cv::Mat& mask, double least_area_px) {
    auto contours = outer_contours(mask);
    std::stable_sort(contours.begin(), contours.end(),
                     [](const auto& a, const auto& b) { return cv::contourArea(a) > cv::contourArea(b); });
    std::vector<cv::Mat> pieces;
    for (const auto& contour : contours) {
        if (cv::contourArea(contour) < least_area_px) break;
        cv::Mat piece = cv::Mat::zeros(mask.size(), CV_8U);
        cv::drawContours(piece, std::vector<Contour>{contour}, 0, 255, cv::FILLED);
        pieces.push_back(piece);
    }
    return pieces;
}

cv::Mat without_tails(const cv::Mat& mask, int margin_px) {
    cv::Mat body;
    cv::morphologyEx(mask, body, cv::MORPH_OPEN, round_element(margin_px));
    cv::dilate(body, body, round_element(margin_px / 2));
    return body & mask;
}

cv::Mat convex_hull_of(const cv::Mat& mask) {
    const auto contours = outer_contours(mask);
    Contour points;
    for (const Contour& contour : contours) points.insert(points.end(), contour.begin(), contour.end());
    std::vector<Contour> hull(1);
    if (!points.empty()) cv::convexHull(points, hull.front());
    cv::Mat filled = cv::Mat::zeros(mask.size(), CV_8U);
    if (!points.empty()) cv::fillPoly(filled, hull, 255);
    return filled;
}

double solidity_of(const cv::Mat& mask, const cv::Mat& hull, const cv::Mat& keep_out) {
    const cv::Mat open = hull & ~keep_out;
    const cv::Mat seen = mask & open;
    return static_cast<double>(cv::countNonZero(seen)) / std::max(1, cv::countNonZero(open));
}

std::vector<PhotoPoint> outline_of(const cv::Mat& mask, double scale) {
    const auto contours = outer_contours(mask);
    if (contours.empty()) return {};
    const auto& longest = *std::max_element(
        contours.begin(), contours.end(),
        [](const auto& a, const auto& b) { return cv::contourArea(a) < cv::contourArea(b); });
    Contour simple;
    cv::approxPolyDP(longest, simple, 1.0, true);
    std::vector<PhotoPoint> outline;
    for (const auto& p : simple) outline.push_back({(p.x + 0.5) / scale - 0.5, (p.y + 0.5) / scale - 0.5});
    return outline;
}

bool touches_frame(const cv::Mat& mask) {
    cv::Mat border = cv::Mat::zeros(mask.size(), CV_8U);
    cv::rectangle(border, {0, 0}, {mask.cols - 1, mask.rows - 1}, 255, 1);
    cv::bitwise_and(border, mask, border);
    return cv::countNonZero(border) > mask.cols / 40;
}

std::optional<double> edge_direction(const cv::Mat& mask) {
    const auto contours = outer_contours(mask);
    if (contours.empty()) return std::nullopt;
    const auto& contour = *std::max_element(contours.begin(), contours.end(),
                                            [](const auto& a, const auto& b) { return a.size() < b.size(); });
    const auto n = contour.size();
    const std::size_t step = std::max<std::size_t>(5, n / 24);
    double c = 0.0;
    double s = 0.0;
    double weight = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const auto& a = contour[i];
        const auto& b = contour[(i + step) % n];
        const auto on_frame = [&](const cv::Point& p) {
            return p.x <= 2 || p.y <= 2 || p.x >= mask.cols - 3 || p.y >= mask.rows - 3;
        };
        if (on_frame(a) || on_frame(b)) continue;
        const double angle = 4.0 * std::atan2(b.y - a.y, b.x - a.x);
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        c += length * std::cos(angle);
        s += length * std::sin(angle);
        weight += length;
    }
    // A circle gives 0, straight sides at right angles 1; the bound between them is not swept.
    if (weight <= 0.0 || std::hypot(c, s) < 0.4 * weight) return std::nullopt;
    return std::atan2(s, c) / 4.0 * degrees_per_radian;
}

}  // namespace ridgetally
