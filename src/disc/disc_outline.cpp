#include "disc/disc_outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "core/median.h"
#include "disc/polar.h"
#include "disc/rim.h"
#include "disc/rim_strip.h"
#include "disc/round_curve.h"
#include "image/masks.h"

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
/// The first mask is good to some pixels of its overview, 0.6 mm each on a scene of 300 mm.
constexpr int mask_margin_px = 3;
/// What a rim may depart from an oval, robust standard deviation over radius: eleven rendered crowns, some of
/// two scalloped rounds, had 0.2 to 1.8 per cent, a photographed coaster with a ruffle of petals 5. A first
/// mask is rougher.
constexpr double most_out_of_round = 0.035;
constexpr double most_out_of_round_at_first = 0.07;
constexpr double least_inliers = 0.6;
/// Stray loops: further from the running median than any scallop of the rim.
constexpr double loose_spreads = 5.0;
constexpr double loose_radii = 0.025;

Refusal not_round() {
    return {"disc", "not-round", "the piece in the photo is not a round crown",
            "lay one crown flat, clear of everything but the ruler; for a swatch use `ridgetally swatch`"};
}

Refusal too_little_rim() {
    return {"disc", "too-little-rim", "too little of the crown's edge is in the photo",
            "take the photo so that the whole edge is in the frame and the ruler lies beside it"};
}

/// The mask without anything much thinner than its thickest part: tails, loops, a strip of shadow.
cv::Mat body_of(const cv::Mat& mask) {
    cv::Mat framed;
    cv::copyMakeBorder(mask, framed, 1, 1, 1, 1, cv::BORDER_REPLICATE);
    cv::Mat depth;
    cv::distanceTransform(framed, depth, cv::DIST_L2, cv::DIST_MASK_5);
    double deepest = 0.0;
    cv::Point middle;
    cv::minMaxLoc(depth, nullptr, &deepest, nullptr, &middle);
    // A third of the radius: half as thick as a crown of one round.
    const double core = deepest / 3.0;
    cv::Mat labels;
    cv::connectedComponents(depth > core, labels);
    const cv::Mat outside_core = labels != labels.at<int>(middle);
    cv::Mat reach;
    cv::distanceTransform(outside_core, reach, cv::DIST_L2, cv::DIST_MASK_5);
    const cv::Mat body = (reach <= core + 1.0) & framed;
    return body(cv::Rect(1, 1, mask.cols, mask.rows)).clone();
}

/// Points of the mask's border that are the fabric's own edge, on the plane.
std::vector<ObjectPoint> border_points(const FabricRegion& region, const cv::Mat& keep_out,
                                       const ObjectFromPhoto& plane_from_photo) {
    const cv::Mat body = body_of(region.mask);
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(body, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    cv::Mat near;
    cv::dilate(keep_out, near, round_element(mask_margin_px));
    const cv::Rect inner(mask_margin_px, mask_margin_px, region.mask.cols - 2 * mask_margin_px,
                         region.mask.rows - 2 * mask_margin_px);
    const double scale = region.overview_from_photo;
    std::vector<ObjectPoint> points;
    for (const auto& contour : contours) {
        for (const auto& p : contour) {
            if (!inner.contains(p) || near.at<uchar>(p) != 0) continue;
            points.push_back(
                plane_from_photo(PhotoPoint{(p.x + 0.5) / scale - 0.5, (p.y + 0.5) / scale - 0.5}));
        }
    }
    return points;
}

bool hidden_at(const RimStrip& strip, int x, int row) {
    constexpr int clearance = 3;
    for (int y = row - clearance; y <= row + clearance; ++y) {
        if (y < 0 || y >= strip.usable.rows || strip.usable.at<uchar>(y, x) == 0) return true;
    }
    return false;
}

/// Distance of a curve that has a centre of its own, from another centre: a few rounds of fixed-point steps.
double radius_from(const ObjectPoint& centre_mm, const RoundCurve& curve, double angle) {
    double r = curve.radius_mm;
    for (int k = 0; k < 4; ++k) {
        const double x = centre_mm.x + r * std::cos(angle) - curve.centre_mm.x;
        const double y = centre_mm.y + r * std::sin(angle) - curve.centre_mm.y;
        r += curve.radius_at(std::atan2(y, x)) - std::hypot(x, y);
    }
    return r;
}

std::vector<ObjectPoint> seen_points(const DiscOutline& outline) {
    std::vector<ObjectPoint> seen;
    for (std::size_t i = 0; i < outline.places.size(); ++i) {
        if (outline.places[i] == RimPlace::edge) seen.push_back(outline.point(i));
    }
    return seen;
}

enum class Side { outwards, either };

/// What departs from a smooth line, with its flanks.
std::vector<bool> departing(const std::vector<double>& radius_mm, const std::vector<double>& smooth_mm,
                            const std::vector<bool>& seen, double spread_mm, Side sides) {
    const int n = static_cast<int>(radius_mm.size());
    const double mean = smooth_mm[smooth_mm.size() / 2];
    const double limit = std::max(loose_spreads * spread_mm, loose_radii * mean);
    const double flank = 2.0 * spread_mm;
    const auto departure = [&](int i) {
        const auto k = static_cast<std::size_t>((i % n + n) % n);
        return seen[k] ? radius_mm[k] - smooth_mm[k] : 0.0;
    };
    std::vector<bool> loose(radius_mm.size(), false);
    for (int i = 0; i < n; ++i) {
        if (std::abs(departure(i)) <= limit) continue;
        if (sides == Side::outwards && departure(i) < 0.0) continue;
        const double side = departure(i) > 0.0 ? 1.0 : -1.0;
        for (const int way : {-1, 1}) {
            for (int k = i; std::abs(k - i) < n / 8 && side * departure(k) > flank; k += way)
                loose[static_cast<std::size_t>((k % n + n) % n)] = true;
        }
    }
    return loose;
}

/// Marks what sticks out of (or cuts into) the edge: first what stands out of an oval through it, which no
/// loop lifts (a spiral's end lies inside of one), then what departs from a running median without that.
void mark_loose(DiscOutline& outline) {
    const int n = static_cast<int>(outline.radius_mm.size());
    std::vector<bool> seen;
    for (const auto place : outline.places) seen.push_back(place != RimPlace::hidden);
    const RoundCurve oval = fit_round_curve(seen_points(outline), CurveShape::oval);
    std::vector<double> smooth;
    for (int i = 0; i < n; ++i) smooth.push_back(radius_from(outline.centre_mm, oval, turn * i / n));
    std::vector<bool> loose = departing(outline.radius_mm, smooth, seen, oval.spread_mm, Side::outwards);
    constexpr int passes = 2;
    for (int pass = 0; pass < passes; ++pass) {
        std::vector<bool> counts;
        auto radius_mm = outline.radius_mm;
        for (std::size_t i = 0; i < seen.size(); ++i) {
            counts.push_back(seen[i] && !loose[i]);
            if (!counts[i]) radius_mm[i] = smooth[i];  // where nothing near counts
        }
        // 22 degrees to either side: wider than most loops, narrower than a polygon's corner.
        smooth = closed_median(radius_mm, counts, n / 16);
        std::vector<double> departures;
        for (std::size_t i = 0; i < smooth.size(); ++i) {
            if (counts[i]) departures.push_back(std::abs(outline.radius_mm[i] - smooth[i]));
        }
        if (departures.empty()) return;
        outline.spread_mm = mad_to_std * median_of(departures);
        loose = departing(outline.radius_mm, smooth, seen, outline.spread_mm, Side::either);
    }
    for (std::size_t i = 0; i < loose.size(); ++i) {
        if (!loose[i]) continue;
        outline.places[i] = RimPlace::loose;
        outline.radius_mm[i] = smooth[i];
    }
}

/// Takes hidden parts from a curve through the seen ones.
void fill_hidden(DiscOutline& outline) {
    const auto seen = seen_points(outline);
    const double part = outline.part_of(RimPlace::hidden);
    // Over a short gap an oval is safe; over a long one it runs away, a circle does not.
    const RoundCurve curve = fit_round_curve(seen, part < 0.25 ? CurveShape::oval : CurveShape::circle);
    outline.out_of_round_mm = curve.spread_mm;
    const double n = static_cast<double>(outline.places.size());
    for (std::size_t i = 0; i < outline.places.size(); ++i) {
        if (outline.places[i] != RimPlace::hidden) continue;
        outline.radius_mm[i] = radius_from(outline.centre_mm, curve, turn * static_cast<double>(i) / n);
    }
}

/// Moves the centre to the middle of the area and takes the distances from there.
void centre(DiscOutline& outline) {
    const std::size_t n = outline.radius_mm.size();
    std::vector<ObjectPoint> points;
    for (std::size_t i = 0; i < n; ++i) points.push_back(outline.point(i));
    const ObjectPoint middle = middle_of_area(outline);
    DiscOutline moved = outline;
    moved.centre_mm = middle;
    std::size_t k = 0;
    const auto angle_of = [&](std::size_t i) {
        return std::atan2(points[i % n].y - middle.y, points[i % n].x - middle.x);
    };
    for (std::size_t i = 0; i < n; ++i) {
        const double angle = turn * static_cast<double>(i) / static_cast<double>(n);
        // The nearest old point, walking on from the last one.
        const auto gap = [&](std::size_t j) { return std::abs(std::remainder(angle_of(j) - angle, turn)); };
        if (i == 0) {
            for (std::size_t j = 1; j < n; ++j) k = gap(j) < gap(k) ? j : k;
        }
        while (gap(k + 1) < gap(k)) k = (k + 1) % n;
        moved.radius_mm[i] = std::hypot(points[k % n].x - middle.x, points[k % n].y - middle.y);
        moved.places[i] = outline.places[k % n];
    }
    outline = moved;
}

}  // namespace

DiscOutline evened(const DiscOutline& outline) {
    DiscOutline result = outline;
    const auto n = static_cast<int>(outline.radius_mm.size());
    const int reach = n / 24;
    for (int i = 0; i < n; ++i) {
        double sum = 0.0;
        for (int d = -reach; d <= reach; ++d) {
            const double r = outline.radius_mm[static_cast<std::size_t>((i + d + n) % n)];
            sum += r * r;
        }
        result.radius_mm[static_cast<std::size_t>(i)] = std::sqrt(sum / (2 * reach + 1));
    }
    return result;
}

ObjectPoint middle_of_area(const DiscOutline& outline) {
    const std::size_t n = outline.radius_mm.size();
    double area = 0.0;
    double x = 0.0;
    double y = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const ObjectPoint a = outline.point(i);
        const ObjectPoint b = outline.point((i + 1) % n);
        const double cross = a.x * b.y - b.x * a.y;
        area += cross;
        x += (a.x + b.x) * cross;
        y += (a.y + b.y) * cross;
    }
    return {x / (3.0 * area), y / (3.0 * area)};
}

double DiscOutline::part_of(RimPlace place) const {
    return static_cast<double>(std::count(places.begin(), places.end(), place)) /
           static_cast<double>(places.size());
}

ObjectPoint DiscOutline::point(std::size_t i) const {
    const double angle = turn * static_cast<double>(i) / static_cast<double>(radius_mm.size());
    return {centre_mm.x + radius_mm[i] * std::cos(angle), centre_mm.y + radius_mm[i] * std::sin(angle)};
}

double DiscOutline::area_diameter_mm() const {
    double sum = 0.0;
    for (const double r : radius_mm) sum += r * r;
    return 2.0 * std::sqrt(sum / static_cast<double>(radius_mm.size()));
}

double DiscOutline::radius_at(double angle_rad) const {
    const auto n = static_cast<double>(radius_mm.size());
    double at = angle_rad / turn * n;
    at -= n * std::floor(at / n);
    const auto i = static_cast<std::size_t>(at) % radius_mm.size();
    const double f = at - std::floor(at);
    return (1.0 - f) * radius_mm[i] + f * radius_mm[(i + 1) % radius_mm.size()];
}

Outcome<DiscOutline> trace_disc(const Photo& photo, const FabricRegion& region,
                                const PhotoFromObject& photo_from_plane, const DiscOutlineOptions& options) {
    const auto plane_from_photo = inverse(photo_from_plane);
    if (!plane_from_photo) return not_round();
    const cv::Mat keep_out =
        polygon_mask(options.keep_out_px, region.overview_from_photo, region.mask.size());
    const auto border = border_points(region, keep_out, *plane_from_photo);
    constexpr std::size_t least_border_points = 40;
    if (border.size() < least_border_points) return too_little_rim();
    const RoundCurve guess = fit_round_curve(border, CurveShape::circle);
    if (guess.inlier_part < least_inliers || guess.spread_mm > most_out_of_round_at_first * guess.radius_mm)
        return not_round();

    const RimStrip strip = rim_strip(photo, region, keep_out, guess, photo_from_plane, options.angles);
    const auto rim = find_rim(strip);
    const auto fine = half_way_rim(strip.ycc, rim);
    DiscOutline outline;
    outline.photo_from_plane = photo_from_plane;
    outline.centre_mm = guess.centre_mm;
    outline.px_per_mm = px_per_mm_along(photo_from_plane, guess.centre_mm, 1, 0);
    for (std::size_t i = 0; i < fine.size(); ++i) {
        outline.radius_mm.push_back(strip.frame.radius_mm(fine[i]));
        outline.places.push_back(hidden_at(strip, static_cast<int>(i), rim[i]) ? RimPlace::hidden
                                                                               : RimPlace::edge);
    }
    if (1.0 - outline.part_of(RimPlace::hidden) < options.least_seen_part) return too_little_rim();
    mark_loose(outline);
    if (outline.part_of(RimPlace::edge) < options.least_seen_part) return not_round();
    fill_hidden(outline);
    if (outline.out_of_round_mm > most_out_of_round * guess.radius_mm) return not_round();
    centre(outline);
    return outline;
}

}  // namespace ridgetally
