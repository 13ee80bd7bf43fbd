#include "pipeline/reference.h"

#include <algorithm>

#include "pipeline/trace_pictures.h"
#include "rectify/rectify.h"
#include "scale/flat/flat_reference.h"
#include "scale/read_ruler.h"

namespace ridgetally {
namespace {

/// Beyond this tilt the far side of a swatch is seen so much smaller that stitches hide each other (design
/// limit; the error budget still holds).
constexpr double strong_tilt_deg = 25.0;

Outcome<ScaleReference> reference_in(const Photo& photo, const Catalog& catalog,
                                     const ScaleOptions& options) {
    if (options.two_points) {
        return two_points_reference(options.two_points->from_px, options.two_points->to_px,
                                    options.two_points->length_mm);
    }
    if (options.flat_reference) {
        const auto flat = flat_reference_from(*options.flat_reference, catalog);
        if (!flat) return flat.refusal();
        return find_flat_reference(photo, *flat);
    }
    RulerOptions ruler;
    ruler.told_unit = options.unit;
    return read_ruler(photo, ruler);
}

/// What is not fabric: the reference. Points by hand often lie on a ruler, which must not be taken for a
/// second piece; what it would say of the scale does not matter then.
std::vector<PhotoPoint> reference_outline(const Photo& photo, const ScaleReference& reference) {
    if (reference.kind != "two-points") return reference.outline_px;
    const auto ruler = read_ruler(photo);
    return ruler ? ruler->outline_px : std::vector<PhotoPoint>{};
}

}  // namespace

Outcome<ScaleReference> read_reference(const Photo& photo, const Catalog& catalog,
                                       const ScaleOptions& options, Trace& trace) {
    auto reference = reference_in(photo, catalog, options);
    if (!reference) return reference;
    for (const auto& note : reference->notes) trace.note("scale: " + note);
    trace_reference(photo, *reference, trace);
    return reference;
}

Outcome<Rectification> rectify_reference(const Photo& photo, const ScaleReference& reference,
                                         const ScaleOptions& options) {
    RectifyOptions rectify_options;
    rectify_options.ruler_correction = options.ruler_correction;
    return rectify(reference, photo.grey.size(), focal_length_px(photo), rectify_options);
}

void note_camera(const Rectification& rectification, Trace& trace) {
    for (const auto& note : rectification.notes) trace.note("rectify: " + note);
}

Outcome<ReferencePlane> find_reference(const Photo& photo, const Catalog& catalog,
                                       const ScaleOptions& options, Trace& trace) {
    auto reference = read_reference(photo, catalog, options, trace);
    if (!reference) return reference.refusal();
    auto rectification = rectify_reference(photo, *reference, options);
    if (!rectification) return rectification.refusal();
    note_camera(*rectification, trace);
    return ReferencePlane{std::move(reference).value(), std::move(rectification).value()};
}

Outcome<FabricRegion> fabric_beside(const Photo& photo, const ScaleReference& reference,
                                    const std::vector<PhotoPoint>& area_px,
                                    const std::optional<FabricOverview>& overview) {
    if (!area_px.empty()) return fabric_inside(photo, area_px);
    FindFabricOptions find;
    const auto outline = reference_outline(photo, reference);
    if (!outline.empty()) find.keep_out_px.push_back(outline);
    return overview ? find_fabric(*overview, find) : find_fabric(photo, find);
}

std::vector<std::string> corrected_of(const ScaleOptions& options) {
    std::vector<std::string> corrected;
    if (options.unit) corrected.emplace_back("unit");
    if (options.two_points) corrected.emplace_back("scale");
    return corrected;
}

ScaleResult scale_result(const ReferencePlane& plane) {
    ScaleResult result;
    result.reference = plane.reference.kind;
    result.px_per_mm = plane.rectification.px_per_mm;
    result.tilt_deg = plane.rectification.tilt_deg;
    result.camera_distance_mm = plane.rectification.camera_distance_mm;
    result.focal_source = plane.rectification.pose.focal_source;
    if (!plane.reference.lines.empty()) {
        result.unit = plane.reference.lines.front().unit;
        result.marks = plane.reference.lines.front().marks;
    }
    return result;
}

std::vector<Warning> scale_warnings(const ReferencePlane& plane) {
    std::vector<Warning> warnings;
    if (plane.rectification.tilt_deg > strong_tilt_deg) {
        warnings.push_back(
            {"tilted",
             "the photo was taken at a slant; hold the phone level above the table for a tighter interval"});
    }
    return warnings;
}

PhotoFacts photo_facts(const Photo& photo) {
    return {photo.file, photo.sha256, photo.grey.cols, photo.grey.rows};
}

}  // namespace ridgetally
