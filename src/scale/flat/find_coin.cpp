#include "scale/flat/find_coin.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "scale/flat/rim.h"
#include "scale/flat/view_priors.h"

namespace ridgetally {
namespace {

constexpr std::size_t most_candidates = 30;
/// Squashed further than this a disc is seen from 40 degrees: no photo for measuring is taken so.
constexpr double least_axis_ratio = 0.77;

Refusal not_found() {
    return {"scale", "reference-not-found", "no coin was found in the photo",
            "lay it flat beside the fabric, all of it to be seen, on a plain table of another colour"};
}

Refusal ambiguous() {
    return {"scale", "reference-ambiguous", "several round things of different size were found in the photo",
            "leave only the coin beside the fabric"};
}

/// Circles by the gradient voting of Yuen et al. (Image and Vision Computing 8, 1990), rough.
std::vector<cv::Vec3f> rough_circles(const cv::Mat& bgr, double least_radius, double most_radius) {
    cv::Mat grey;
    cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
    cv::GaussianBlur(grey, grey, cv::Size(5, 5), 1.2);
    std::vector<cv::Vec3f> circles;
    cv::HoughCircles(grey, circles, cv::HOUGH_GRADIENT_ALT, 1.5, 4.0, 120.0, 0.6,
                     std::max(4, static_cast<int>(least_radius)), std::max(8, static_cast<int>(most_radius)));
    if (circles.size() > most_candidates) circles.resize(most_candidates);
    return circles;
}

bool is_disc(const Rim& rim, const cv::Size& size) {
    constexpr double least_support = 0.75;
    const double r = rim.half_long_px;
    return rim.support >= least_support && rim.half_short_px / r >= least_axis_ratio && rim.middle.x > r &&
           rim.middle.y > r && rim.middle.x + r < size.width && rim.middle.y + r < size.height;
}

double quality_of(const Rim& rim) { return rim.support * std::min(rim.contrast, 40.0); }

/// A ring inside another with nearly its middle is part of the same coin (rim, bimetal ring): the outermost
/// counts.
bool inside(const Rim& inner, const Rim& outer) {
    return cv::norm(inner.middle - outer.middle) < 0.15 * outer.half_long_px &&
           inner.half_long_px < outer.half_long_px;
}

std::vector<Rim> outermost(const std::vector<Rim>& rims) {
    std::vector<Rim> kept;
    for (const auto& rim : rims) {
        const bool covered = std::any_of(rims.begin(), rims.end(), [&](const Rim& other) {
            return inside(rim, other) && quality_of(other) > 0.5 * quality_of(rim);
        });
        if (!covered) kept.push_back(rim);
    }
    return kept;
}

Rim in_photo(Rim rim, const ColourOverview& overview) {
    rim.middle = overview.in_photo(rim.middle);
    rim.half_long_px *= overview.reduction;
    rim.half_short_px *= overview.reduction;
    rim.spread_px *= overview.reduction;
    return rim;
}

ScaleReference reference_of(const Rim& rim, const RoundObject& object) {
    ScaleReference reference;
    reference.kind = "coin";
    const cv::Point2d half = rim.along_long * rim.half_long_px;
    const cv::Point2d from = rim.middle - half;
    const cv::Point2d to = rim.middle + half;
    MarkLine line;
    line.spacing_mm = object.diameter_mm.nominal;
    line.marks = {{0.0, {from.x, from.y}, {from.x, from.y}},
                  {object.diameter_mm.nominal, {to.x, to.y}, {to.x, to.y}}};
    line.residual_px = rim.spread_px;
    reference.lines.push_back(line);
    for (int i = 0; i < 16; ++i) {
        const double angle = i * CV_PI / 8.0;
        const cv::Point2d square(-rim.along_long.y, rim.along_long.x);
        const cv::Point2d p =
            rim.middle + 1.08 * (half * std::cos(angle) + square * (rim.half_short_px * std::sin(angle)));
        reference.outline_px.push_back({p.x, p.y});
    }
    // Upper or lower rim: as for cards, a quarter of the thickness apart. The edge itself: its spread over
    // the independent edge points, taken as a tenth of those the spread was made of, on both sides.
    const double parallax_mm = 0.25 * object.thickness_mm / std::sqrt(12.0);
    const double edge = rim.spread_px / rim.half_long_px / std::sqrt(20.0);
    reference.object_relative_std =
        std::hypot(std::hypot(object.diameter_mm.std(), parallax_mm) / object.diameter_mm.nominal, edge);
    reference.object_source = object.diameter_mm.source;
    return reference;
}

}  // namespace

Outcome<ScaleReference> find_coin_in(const Photo& photo, const RoundObject& object) {
    const FlatSearch search = flat_search(photo);
    const auto& [bgr, view, small, scale] = search;
    const double radius_at_1_mm = 0.5 * view.focal_px * scale * object.diameter_mm.nominal;
    const double most_radius = std::min(radius_at_1_mm / nearest_mm, 0.45 * std::min(small.cols, small.rows));
    std::vector<Rim> rims;
    for (const auto& circle : rough_circles(small, radius_at_1_mm / farthest_mm, most_radius)) {
        const cv::Point2d middle = unscaled({circle[0], circle[1]}, scale);
        const double radius = circle[2] / scale;
        auto rim = follow_rim(bgr, middle, radius, std::max(4.0, 0.15 * radius));
        if (rim)
            rim = follow_rim(bgr, rim->middle, std::sqrt(rim->half_long_px * rim->half_short_px),
                             std::max(4.0, 0.5 * (rim->half_long_px - rim->half_short_px) + 0.04 * radius));
        if (rim && is_disc(*rim, bgr.size())) rims.push_back(*rim);
    }
    rims = outermost(rims);
    if (rims.empty()) return not_found();
    const auto best = std::max_element(
        rims.begin(), rims.end(), [](const Rim& a, const Rim& b) { return quality_of(a) < quality_of(b); });
    constexpr double same_size = 0.03;
    for (const auto& other : rims)
        if (quality_of(other) > 0.5 * quality_of(*best) &&
            std::abs(std::log(other.half_long_px / best->half_long_px)) > same_size)
            return ambiguous();
    return reference_of(in_photo(*best, photo.colour), object);
}

}  // namespace ridgetally
