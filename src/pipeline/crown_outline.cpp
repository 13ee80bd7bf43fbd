#include "pipeline/crown_outline.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <optional>
#include <string>

#include "disc/colour_pieces.h"
#include "disc/told_rim.h"

namespace ridgetally {
namespace {

/// Of the round pieces the one whose rim is the most even: with its shadow it is less so. Pieces much smaller
/// than the largest are but a part of it, as the inner rounds of a striped crown.
std::optional<DiscOutline> roundest(const Photo& photo, const std::vector<FabricRegion>& pieces,
                                    const PhotoFromObject& photo_from_plane,
                                    const DiscOutlineOptions& options) {
    constexpr double same_size = 0.85;
    std::optional<DiscOutline> best;
    double largest = 0.0;
    for (const auto& piece : pieces) {
        auto outline = trace_disc(photo, piece, photo_from_plane, options);
        if (!outline || outline->area_diameter_mm() < same_size * largest) continue;
        largest = std::max(largest, outline->area_diameter_mm());
        if (!best || outline->out_of_round_mm < best->out_of_round_mm) best = std::move(outline).value();
    }
    return best;
}

/// The rim of the fabric; where there is none that is round, that of the largest round piece of its own
/// colour.
Outcome<DiscOutline> find_disc(const Photo& photo, const ReferencePlane& plane,
                               const PhotoFromObject& photo_from_plane, const CrownOptions& options,
                               Trace& trace) {
    DiscOutlineOptions outline_options;
    if (!plane.reference.outline_px.empty())
        outline_options.keep_out_px.push_back(plane.reference.outline_px);
    const auto region = fabric_beside(photo, plane.reference, options.area_px);
    if (region && trace.wants_pictures()) trace.picture("fabric-mask", region->mask);
    auto outline = region ? trace_disc(photo, *region, photo_from_plane, outline_options)
                          : Outcome<DiscOutline>(region.refusal());
    if (outline || !options.area_px.empty()) return outline;
    FindFabricOptions find;
    find.keep_out_px = outline_options.keep_out_px;
    if (auto other = roundest(photo, colour_pieces(photo, find), photo_from_plane, outline_options)) {
        trace.note("disc: told by its colour, the fabric found was " + outline.refusal().code);
        return *other;
    }
    return outline;
}

void trace_outline(const Photo& photo, const DiscOutline& outline, Trace& trace) {
    trace.note("disc: edge scatters by " + std::to_string(outline.spread_mm) + " mm about its median, " +
               std::to_string(outline.out_of_round_mm) + " mm about an oval, loose part " +
               std::to_string(outline.part_of(RimPlace::loose)));
    if (!trace.wants_pictures()) return;
    cv::Mat picture = photo.colour.bgr.clone();
    for (std::size_t i = 0; i < outline.radius_mm.size(); ++i) {
        const PhotoPoint p = outline.photo_from_plane(outline.point(i));
        const cv::Scalar colour = outline.places[i] == RimPlace::edge    ? cv::Scalar(0, 255, 0)
                                  : outline.places[i] == RimPlace::loose ? cv::Scalar(0, 0, 255)
                                                                         : cv::Scalar(255, 0, 0);
        const cv::Point2d at = photo.colour.from_photo({p.x, p.y});
        cv::circle(picture, {cvRound(at.x), cvRound(at.y)}, 1, colour, cv::FILLED);
    }
    trace.picture("disc-outline", picture);
}

}  // namespace

Outcome<DiscOutline> crown_outline(const Photo& photo, const ReferencePlane& plane, double above_mm,
                                   const CrownOptions& options, Trace& trace) {
    const PhotoFromObject photo_from_plane = photo_from_plane_at(plane.rectification, above_mm);
    auto outline = options.rim_px.empty() ? find_disc(photo, plane, photo_from_plane, options, trace)
                                          : told_disc(options.rim_px, photo_from_plane);
    if (outline) trace_outline(photo, *outline, trace);
    return outline;
}

}  // namespace ridgetally
