#include "scale/flat/sheet_sides.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "scale/flat/edge_line.h"

namespace ridgetally {
namespace {

cv::Point2d outward_of(const Quad& quad, std::size_t side) {
    const cv::Point2d along = quad[(side + 1) % 4] - quad[side];
    return cv::Point2d(along.y, -along.x) * (1.0 / cv::norm(along));  // clockwise, y down: outside is here
}

/// Does the line through a corner go on over `away` as an edge, whichever side is the brighter?
bool goes_on(const cv::Mat& bgr, const cv::Point2d& corner, const cv::Point2d& away,
             const cv::Point2d& outward, const EdgeOptions& options) {
    constexpr double skip = 0.1;     // a rounded corner, and its shadow
    constexpr double support = 0.7;  // of the probes
    const auto one = find_side(bgr, corner, corner + away, outward, skip, options);
    if (one && one->support > support) return true;
    const auto other = find_side(bgr, corner, corner + away, -outward, skip, options);
    return other && other->support > support;
}

}  // namespace

std::optional<FoundSheet> follow_sides(const cv::Mat& bgr, const Quad& quad, const FlatObject& object,
                                       double reach_px) {
    EdgeOptions options;
    options.reach_px = reach_px;
    std::array<SideLine, 4> sides;
    FoundSheet found{quad, 1.0, 0.0, 1e9, 0.0};
    for (std::size_t i = 0; i < 4; ++i) {
        const double side_mm = i % 2 == 0 ? object.width_mm.nominal : object.height_mm.nominal;
        const double skip = object.corner_radius_mm.high / side_mm + 0.05;
        const auto side = find_side(bgr, quad[i], quad[(i + 1) % 4], outward_of(quad, i), skip, options);
        if (!side) return std::nullopt;
        sides[i] = *side;
        found.support = std::min(found.support, side->support);
        found.spread_px = std::max(found.spread_px, side->spread_px);
        found.contrast = std::min(found.contrast, side->contrast);
        found.score += side->support / 4.0;
    }
    for (std::size_t i = 0; i < 4; ++i) {
        const auto& before = sides[(i + 3) % 4];
        const auto corner = crossing(before.through, before.along, sides[i].through, sides[i].along);
        if (!corner) return std::nullopt;
        found.quad[i] = *corner;
    }
    return found;
}

int ends_that_go_on(const cv::Mat& bgr, const FoundSheet& sheet) {
    EdgeOptions options;
    options.reach_px = 2.0;
    options.least_contrast = 0.5 * sheet.contrast;
    int count = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const cv::Point2d a = sheet.quad[i];
        const cv::Point2d b = sheet.quad[(i + 1) % 4];
        const cv::Point2d outward = outward_of(sheet.quad, i);
        count += goes_on(bgr, a, (a - b) * 0.2, outward, options) ? 1 : 0;
        count += goes_on(bgr, b, (b - a) * 0.2, outward, options) ? 1 : 0;
    }
    return count;
}

double quality_of(const FoundSheet& sheet) { return sheet.score * std::min(sheet.contrast, 40.0); }

double size_of(const FoundSheet& sheet) { return std::sqrt(area_of(sheet.quad)); }

}  // namespace ridgetally
