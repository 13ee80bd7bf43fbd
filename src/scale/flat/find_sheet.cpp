#include "scale/flat/find_sheet.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "scale/flat/quad_candidates.h"
#include "scale/flat/sheet_sides.h"
#include "scale/flat/view_priors.h"

namespace ridgetally {
namespace {

constexpr std::size_t most_candidates = 40;

QuadTarget target_for(const FlatObject& object, const ViewPriors& view) {
    QuadTarget target;
    target.aspect = object.width_mm.nominal / object.height_mm.nominal;
    // Limits of the object, and corners good to a hundredth of a side.
    target.aspect_tolerance = 0.01 +
                              (object.width_mm.high - object.width_mm.nominal) / object.width_mm.nominal +
                              (object.height_mm.high - object.height_mm.nominal) / object.height_mm.nominal;
    target.cosine_tolerance = 0.02;
    target.focal_tolerance = view.focal_known ? 0.08 : 0.4;
    return target;
}

/// The target for the rough corners of the search: 2 px off in a side of 100 px.
QuadTarget loosened(QuadTarget target, double scale) {
    target.aspect_tolerance += 0.04;
    target.cosine_tolerance += 0.04;
    target.least_side_px *= std::min(1.0, std::max(scale, 0.5));
    return target;
}

std::optional<FoundSheet> verified(const cv::Mat& bgr, const Quad& rough, const FlatObject& object,
                                   const ViewPriors& view, const QuadTarget& target, double scale) {
    constexpr double least_support = 0.8;
    constexpr int most_going_on = 1;  // something else may touch one corner
    const double wide = std::max(4.0, 3.0 / scale);
    const auto first = follow_sides(bgr, rough, object, wide);
    if (!first) return std::nullopt;
    const auto second = follow_sides(bgr, first->quad, object, std::max(3.0, wide / 2.0));
    if (!second || second->support < least_support) return std::nullopt;
    if (!is_proper(second->quad, bgr.size(), 1.0) || !fits(second->quad, view, target)) return std::nullopt;
    const double distance_mm =
        view.focal_px * std::sqrt(object.width_mm.nominal * object.height_mm.nominal) / size_of(*second);
    if (distance_mm < nearest_mm || distance_mm > farthest_mm) return std::nullopt;
    if (ends_that_go_on(bgr, *second) > most_going_on) return std::nullopt;
    return second;
}

Refusal not_found(const FlatObject& object) {
    return {
        "scale", "reference-not-found", "no " + object.name + " was found in the photo",
        "lay all of it flat beside the fabric, on a table of another colour, with nothing over its edges"};
}

Refusal ambiguous(const FlatObject& object) {
    return {"scale", "reference-ambiguous",
            "several things in the photo have the shape of the " + object.name + ", but not the same size",
            "leave only one of them beside the fabric"};
}

double relative_std_of(const FlatObject& object, const FoundSheet& sheet) {
    // The edge that is seen may be that of the upper or the lower face: seen from a quarter of the camera's
    // distance to the side, they lie a quarter of the thickness apart, evenly likely.
    const double parallax_mm = 0.25 * object.thickness_mm.nominal / std::sqrt(12.0);
    const auto relative = [&](const Limits& side) {
        return std::hypot(side.std(), parallax_mm) / side.nominal;
    };
    const double of_object =
        std::sqrt((std::pow(relative(object.width_mm), 2) + std::pow(relative(object.height_mm), 2)) / 2.0);
    return std::hypot(of_object, sheet.spread_px / size_of(sheet));
}

FoundSheet in_photo(FoundSheet sheet, const ColourOverview& overview) {
    for (auto& corner : sheet.quad) corner = overview.in_photo(corner);
    sheet.spread_px *= overview.reduction;
    return sheet;
}

ScaleReference reference_of(const FlatObject& object, const FoundSheet& sheet) {
    ScaleReference reference;
    reference.kind = object.key;
    const double w = object.width_mm.nominal;
    const double h = object.height_mm.nominal;
    const std::array<ObjectPoint, 4> corners = {ObjectPoint{0, 0}, {w, 0}, {w, h}, {0, h}};
    const cv::Point2d middle = (sheet.quad[0] + sheet.quad[1] + sheet.quad[2] + sheet.quad[3]) * 0.25;
    for (std::size_t i = 0; i < 4; ++i) {
        reference.matches.push_back({{sheet.quad[i].x, sheet.quad[i].y}, corners[i]});
        const cv::Point2d out = middle + (sheet.quad[i] - middle) * 1.03;  // its shadow is kept out as well
        reference.outline_px.push_back({out.x, out.y});
    }
    reference.object_relative_std = relative_std_of(object, sheet);
    reference.object_source = object.source;
    return reference;
}

}  // namespace

Outcome<ScaleReference> find_sheet(const Photo& photo, const FlatObject& object) {
    const FlatSearch search = flat_search(photo);
    const auto& [bgr, view, small, scale] = search;
    const QuadTarget target = target_for(object, view);
    std::vector<FoundSheet> found;
    for (auto quad :
         quad_candidates(small, scaled_view(view, scale), loosened(target, scale), most_candidates)) {
        for (auto& corner : quad) corner = unscaled(corner, scale);
        if (const auto sheet = verified(bgr, quad, object, view, target, scale)) found.push_back(*sheet);
    }
    if (found.empty()) return not_found(object);
    const auto best = std::max_element(
        found.begin(), found.end(),
        [](const FoundSheet& a, const FoundSheet& b) { return quality_of(a) < quality_of(b); });
    constexpr double same_size = 0.03;
    for (const auto& other : found)
        if (quality_of(other) > 0.5 * quality_of(*best) &&
            std::abs(std::log(size_of(other) / size_of(*best))) > same_size)
            return ambiguous(object);
    return reference_of(object, in_photo(*best, photo.colour));
}

}  // namespace ridgetally
