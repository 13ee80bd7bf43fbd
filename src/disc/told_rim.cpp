#include "disc/told_rim.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
/// As many as an outline that was traced has.
const std::size_t angles = static_cast<std::size_t>(DiscOutlineOptions().angles);

/// A point of the rim seen from the middle: angle in [0, turn), distance in mm.
using Polar = std::pair<double, double>;

Refusal bad_rim() {
    return {"disc", "bad-rim", "the points do not go around the crown",
            "set at least three points on its edge, all the way round"};
}

ObjectPoint mean_of(const std::vector<ObjectPoint>& points) {
    ObjectPoint mean{0.0, 0.0};
    for (const auto& p : points) {
        mean.x += p.x / static_cast<double>(points.size());
        mean.y += p.y / static_cast<double>(points.size());
    }
    return mean;
}

std::vector<Polar> seen_from(const ObjectPoint& middle, const std::vector<ObjectPoint>& points) {
    std::vector<Polar> seen;
    for (const auto& p : points) {
        const double angle = std::atan2(p.y - middle.y, p.x - middle.x);
        seen.emplace_back(angle < 0.0 ? angle + turn : angle, std::hypot(p.x - middle.x, p.y - middle.y));
    }
    std::sort(seen.begin(), seen.end());
    return seen;
}

/// Half a turn without a point: they lie on one side.
bool goes_around(const std::vector<Polar>& seen) {
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const double next = i + 1 < seen.size() ? seen[i + 1].first : seen.front().first + turn;
        if (next - seen[i].first >= std::numbers::pi || seen[i].second <= 0.0) return false;
    }
    return true;
}

double distance_at(const std::vector<Polar>& seen, double angle) {
    const auto after = std::upper_bound(seen.begin(), seen.end(), Polar{angle, 1e300});
    const Polar next = after == seen.end() ? Polar{seen.front().first + turn, seen.front().second} : *after;
    const Polar before =
        after == seen.begin() ? Polar{seen.back().first - turn, seen.back().second} : *(after - 1);
    if (next.first == before.first) return next.second;
    const double part = (angle - before.first) / (next.first - before.first);
    return (1.0 - part) * before.second + part * next.second;
}

}  // namespace

Outcome<DiscOutline> told_disc(const std::vector<PhotoPoint>& rim_px,
                               const PhotoFromObject& photo_from_plane) {
    const auto plane_from_photo = inverse(photo_from_plane);
    if (!plane_from_photo || rim_px.size() < 3) return bad_rim();
    std::vector<ObjectPoint> points;
    points.reserve(rim_px.size());
    for (const auto& p : rim_px) points.push_back((*plane_from_photo)(p));
    // The mean of points set closer on one side lies off the middle; what the curve through them encloses
    // does not.
    ObjectPoint middle = mean_of(points);
    DiscOutline outline;
    outline.photo_from_plane = photo_from_plane;
    for (int pass = 0; pass < 3; ++pass) {
        const auto seen = seen_from(middle, points);
        if (!goes_around(seen)) return bad_rim();
        outline.centre_mm = middle;
        outline.radius_mm.clear();
        for (std::size_t i = 0; i < angles; ++i)
            outline.radius_mm.push_back(
                distance_at(seen, turn * static_cast<double>(i) / static_cast<double>(angles)));
        middle = middle_of_area(outline);
    }
    outline.places.assign(angles, RimPlace::edge);
    outline.px_per_mm = px_per_mm_along(photo_from_plane, outline.centre_mm, 1, 0);
    return outline;
}

}  // namespace ridgetally
