#include "cli/api/found.h"

#include <cmath>

namespace ridgetally::api {
namespace {

/// A tenth of a pixel: finer than any mark or edge is known.
Document point_document(const PhotoPoint& point) {
    const auto tenth = [](double x) { return std::round(10.0 * x) / 10.0; };
    return {tenth(point.x), tenth(point.y)};
}

Document line_document(const PhotoPoint& from, const PhotoPoint& to) {
    return {point_document(from), point_document(to)};
}

Document common(const ScaleResult& scale, const std::vector<PhotoPoint>& outline) {
    Document found = Document::object();
    if (scale.marks.size() > 1)
        found["ruler_px"] = line_document(scale.marks.front().foot_px, scale.marks.back().foot_px);
    if (outline.empty()) return found;
    Document corners = Document::array();
    for (const auto& point : outline) corners.push_back(point_document(point));
    found["outline_px"] = std::move(corners);
    return found;
}

}  // namespace

Document found_document(const SwatchResult& result) {
    Document found = common(result.scale, result.overlay.outline);
    const auto& rows = result.overlay.row_ridges;
    if (rows.empty()) return found;
    const auto& points = rows[rows.size() / 2].points;
    if (points.size() > 1) found["row_px"] = line_document(points.front(), points.back());
    return found;
}

Document found_document(const CrownResult& result) { return common(result.scale, result.overlay.outline); }

Document found_document(const PieceResult& result) { return common(result.scale, result.outline_px); }

}  // namespace ridgetally::api
