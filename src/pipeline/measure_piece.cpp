#include "pipeline/measure_piece.h"

#include <cmath>

#include "core/units.h"
#include "disc/piece_extent.h"
#include "fabric/fabric_patch.h"
#include "fabric/fabric_region.h"
#include "image/quality.h"
#include "pipeline/combine_photos.h"
#include "pipeline/reference.h"
#include "pipeline/ruler_height.h"

namespace ridgetally {
namespace {

/// A hat lies two layers thick, most fabric 2 to 6 mm a layer (yarn categories 3 to 6, from memory); a single
/// layer lies lower. The edge is seen about half-way up.
constexpr double assumed_edge_mm = 4.0;
constexpr double assumed_edge_std_mm = 2.0;
/// The edge of the mask is known to about a pixel of its overview on either side.
constexpr double edge_std_px = 1.0;

Refusal cut_off() {
    return {"piece", "cut-off", "the photo cuts the piece, so its size cannot be told",
            "step back until the whole piece and the ruler are in the frame"};
}

Measured size(double mm, double spread_mm, double px_mm, const std::vector<Contribution>& budget) {
    return with(measured(mm, {{"edge", std::sqrt(2.0) * edge_std_px * px_mm / mm},
                              {"uneven sides", 0.5 * spread_mm / mm}}),
                budget);
}

}  // namespace

Outcome<PieceResult> measure_piece(const Photo& photo, const Knowledge& knowledge,
                                   const PieceOptions& options, Trace& trace) {
    if (const auto quality = check_quality(photo.pyramid); !quality) return quality.refusal();
    const auto plane = find_reference(photo, knowledge.catalog, options.scale, trace);
    if (!plane) return plane.refusal();
    const auto region = fabric_beside(photo, plane->reference, options.area_px);
    if (!region) return region.refusal();
    if (trace.wants_pictures()) trace.picture("fabric-mask", region->mask);
    if (region->cut_by_frame && options.area_px.empty()) return cut_off();

    const FaceHeight face =
        reference_face_height(photo, *plane, knowledge.catalog, options.ruler_thickness_mm, trace);
    const double edge_mm = options.piece_thickness_mm ? 0.5 * *options.piece_thickness_mm : assumed_edge_mm;
    const double edge_std =
        options.piece_thickness_mm ? 0.25 * *options.piece_thickness_mm : assumed_edge_std_mm;
    const bool by_hand = plane->reference.kind == "two-points";  // those lie on what they measure
    const double above_mm = by_hand ? 0.0 : edge_mm - face.mm;
    const double above_std = by_hand ? 0.0 : std::hypot(edge_std, face.std_mm);
    const PhotoFromObject photo_from_plane = photo_from_plane_at(plane->rectification, above_mm);
    std::optional<double> told;
    if (options.width_direction_deg)
        told = plane_direction_rad(photo_from_plane, middle_of(*region), *options.width_direction_deg);
    const auto extent = piece_extent(*region, photo_from_plane, told);
    if (!extent || extent->width_mm <= 0.0 || extent->height_mm <= 0.0) return cut_off();

    const auto budget = [&](double turn_rad) {
        return scale_budget_at(plane->rectification, middle_of(*region), above_mm, above_std,
                               turn_rad * degrees_per_radian);
    };
    PieceResult result;
    result.photo = photo_facts(photo);
    result.scale = scale_result(*plane);
    result.width_mm =
        size(extent->width_mm, extent->width_spread_mm, extent->px_mm, budget(extent->turn_rad));
    result.height_mm = size(extent->height_mm, extent->height_spread_mm, extent->px_mm,
                            budget(extent->turn_rad + CV_PI / 2.0));
    result.circumference_flat_mm = scaled(result.width_mm, 2.0);
    result.corrected = corrected_of(options.scale);
    if (!options.area_px.empty()) result.corrected.emplace_back("area");
    if (told) result.corrected.emplace_back("width-direction");
    result.warnings = scale_warnings(*plane);
    result.outline_px = region->outline_px;
    result.lines = {{0, extent->width_px}, {1, extent->height_px}};
    return result;
}

PieceResult combine_pieces(const std::vector<PieceResult>& results) {
    PieceResult all = gathered(results);
    if (results.size() == 1) return all;
    std::vector<Measured> widths;
    std::vector<Measured> heights;
    for (const auto& result : results) {
        widths.push_back(result.width_mm);
        heights.push_back(result.height_mm);
    }
    all.width_mm = weighted_mean(widths, errors_of_one_piece());
    all.height_mm = weighted_mean(heights, errors_of_one_piece());
    all.circumference_flat_mm = scaled(all.width_mm, 2.0);
    if (birge_ratio(widths, errors_of_one_piece()) > most_birge_ratio ||
        birge_ratio(heights, errors_of_one_piece()) > most_birge_ratio) {
        all.warnings.push_back(
            {"photos-disagree",
             "the photos give different sizes: check that all show the same piece lying flat "
             "and unstretched"});
    }
    return all;
}

}  // namespace ridgetally
