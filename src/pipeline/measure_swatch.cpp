#include "pipeline/measure_swatch.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <sstream>

#include "core/units.h"
#include "fabric/fabric_region.h"
#include "gauge/gauge.h"
#include "image/quality.h"
#include "lattice/find_lattice.h"
#include "pipeline/confirm.h"
#include "pipeline/even_fabric.h"
#include "pipeline/name_stitch.h"
#include "pipeline/priors.h"
#include "pipeline/propose.h"
#include "pipeline/reference.h"
#include "pipeline/ruler_height.h"
#include "pipeline/trace_pictures.h"

namespace ridgetally {
namespace {

/// The lattice is first read on the plane that fits a stitch of this width; the gauge is set right
/// afterwards.
constexpr double first_stitch_mm = 5.0;
/// A further piece of this part of the largest one is not a tail or a label: it might be the swatch that was
/// meant.
constexpr double second_piece_part = 0.4;

/// Whole swatches of 120 of our own renders filled 0.92 of their convex hulls or more; pairs that touched
/// each other 0.79 to 0.89.
constexpr double least_solidity = 0.905;
/// Hand work differs by some per cent between its ends; twice that is a fold, a stretch or another stitch.
constexpr double most_part_difference = 0.10;

Refusal two_fabrics() {
    return {"fabric", "two-fabrics", "what looks like fabric in the photo is more than one piece",
            "leave one swatch in the frame, spread out flat, or bound the part to measure with --area"};
}

bool differs(const PartReading& part, const Lattice& lattice) {
    return std::abs(part.stitch_pitch_px / lattice.stitch_pitch_px.value - 1.0) > most_part_difference;
}

Outcome<FabricRegion> find_region(const Photo& photo, const SwatchOptions& options,
                                  const ReferencePlane& plane,
                                  const std::optional<FabricOverview>& overview) {
    auto region = fabric_beside(photo, plane, options.area_px, overview);
    if (!region || !options.area_px.empty()) return region;
    const bool second_piece =
        !region->others.empty() &&
        cv::countNonZero(region->others.front()) > second_piece_part * cv::countNonZero(region->mask);
    if (second_piece) return two_fabrics();
    return region;
}

/// Height of the fabric's surface above the reference's face.
struct Surface {
    double mm = 0.0;
    double std_mm = 0.0;
};

Surface surface_above(const FaceHeight& face, const SwatchOptions& options, const ReferencePlane& plane,
                      RulerContact contact, double stitch_mm) {
    // Two points by hand lie on what they measure.
    if (plane.reference.kind == "two-points" && !options.fabric_thickness_mm) return {};
    const double fabric_std =
        options.fabric_thickness_mm ? told_thickness_std_mm : surface_height_std_mm(stitch_mm);
    const double fabric_mm = options.fabric_thickness_mm.value_or(surface_height_mm(stitch_mm));
    switch (contact) {
        case RulerContact::apart:
            break;
        case RulerContact::across:  // the ruler presses the fabric down and lies on what the camera sees
            return {-face.mm, std::hypot(fabric_std, face.std_mm)};
        case RulerContact::beside:  // either is as likely
            return {0.5 * fabric_mm - face.mm, std::hypot(0.5 * fabric_mm, fabric_std, face.std_mm)};
    }
    return {fabric_mm - face.mm, std::hypot(fabric_std, face.std_mm)};
}

LatticeOptions lattice_options(const SwatchOptions& options, const Knowledge& knowledge,
                               const PatchSource& source) {
    LatticeOptions result;
    result.priors = priors_for(knowledge.catalog, options.stitch, options.worked);
    result.source = options.stitch ? StitchSource::told : StitchSource::recognised;
    result.accepted_rival = options.reading.value_or(0);
    if (options.repeat) {
        result.stitches_per_repeat = options.repeat->stitches;
        result.rows_per_repeat = options.repeat->rows;
    }
    const auto direction = [&](double photo_deg) {
        return plane_direction_rad(source.photo_from_plane, middle_of(source.region), photo_deg);
    };
    if (options.row_direction_deg) {
        result.row_hint = RowHint::told;
        result.row_direction_rad = direction(*options.row_direction_deg);
        result.row_tolerance_rad = 16.0 / degrees_per_radian;
    } else if (source.region.edge_direction_deg) {
        result.row_hint = RowHint::modulo_90;
        result.row_direction_rad = direction(*source.region.edge_direction_deg);
    }
    return result;
}

std::vector<PhotoCurve> in_photo(const std::vector<Ridge>& ridges, const Lattice& lattice) {
    std::vector<PhotoCurve> curves;
    for (const auto& ridge : ridges) {
        PhotoCurve curve{ridge.index, {}};
        for (const auto& p : ridge.points) curve.points.push_back(lattice.photo_from_rectified(p));
        curves.push_back(std::move(curve));
    }
    return curves;
}

Overlay overlay_of(const Lattice& lattice, const FabricRegion& region) {
    Overlay overlay;
    overlay.outline = region.outline_px;
    overlay.row_ridges = in_photo(lattice.row_ridges, lattice);
    overlay.stitch_ridges = in_photo(lattice.stitch_ridges, lattice);
    overlay.rows_counted = std::max(0, static_cast<int>(lattice.row_ridges.size()) - 1);
    overlay.stitches_counted = std::max(0, static_cast<int>(lattice.stitch_ridges.size()) - 1);
    return overlay;
}

std::vector<Warning> lattice_warnings(const Lattice& lattice, const FabricRegion& region,
                                      const SwatchOptions& options) {
    std::vector<Warning> warnings;
    if (region.cut_by_frame && options.area_px.empty()) {
        warnings.push_back(
            {"cut-by-frame", "the photo cuts the swatch, so its size and its whole counts are not given"});
    }
    if (region.ruler_contact != RulerContact::apart && options.area_px.empty()) {
        warnings.push_back(
            {"ruler-touches",
             "ruler and fabric touch, so it may hide a part: whole counts and size are not given, and "
             "the interval allows for a ruler lying on the fabric; leave a finger's width between them"});
    }
    if (!lattice.row_pitch_px) {
        warnings.push_back({"rows-not-resolved",
                            "rows are not sure, so only stitches are given: tell the stitch with --stitch "
                            "and --worked, or come nearer"});
    }
    for (const auto& part : lattice.parts) {
        if (differs(part, lattice)) {
            warnings.push_back(
                {"uneven",
                 "the " + part.name +
                     " of the measured area has another gauge than the whole: lay it flat, unstretched"});
        }
    }
    return warnings;
}

std::string score_line(const Lattice& lattice) {
    const auto& s = lattice.scores;
    std::ostringstream line;
    line << "lattice: stitch comb " << s.stitch_comb << ", row comb " << s.row_comb << ", line " << s.line
         << ", prior " << s.log_prior << ", total " << s.total << ", margin "
         << std::min(s.stitch_margin, s.row_margin) << ", coherence " << s.stitch_coherence << " and "
         << s.row_coherence;
    return line.str();
}

std::vector<std::string> corrected_in(const SwatchOptions& options) {
    auto corrected = corrected_of(options.scale);
    if (!options.area_px.empty()) corrected.emplace_back("area");
    if (options.row_direction_deg) corrected.emplace_back("rows");
    if (options.reading) corrected.emplace_back("reading");
    return corrected;
}

struct WholeSwatch {
    Measured width_mm, height_mm, stitches, rows;
};

/// How much of a stitch a side shows beyond the last one: nothing to a whole turning chain. On 45 of our own
/// renders 0.1 to 0.5 a side, on photoreal ones of another renderer about nothing, so each side is left that
/// uncertain.
constexpr double edge_std_stitches = 0.35;

/// A count that was rounded is off by up to half, evenly likely (JCGM 100:2008, F.2.2.1).
constexpr double rounding_std = 0.2887;

/// Stitches or rows in a size, `pitch_px` being what one takes with its own uncertainty: over the whole piece
/// that adds up. (The scale cancels.) Without rounding and pitch the interval left out the true count in four
/// of five renders of the calibration report, which show half a stitch too much on either side.
Measured counted(double size_mm, double pitch_mm, const Measured& pitch_px) {
    const double count = std::round(size_mm / pitch_mm);
    const double edges = std::hypot(edge_std_stitches, edge_std_stitches);
    return {count, std::hypot(edges, rounding_std, count * pitch_px.relative_std()), {}};
}

std::optional<WholeSwatch> whole_swatch(const PatchSource& source, const Lattice& lattice,
                                        const EvenedPlane& evened, const SurfaceHeight& height,
                                        const std::vector<Contribution>& budget) {
    if (source.region.cut_by_frame || !lattice.row_pitch_px) return std::nullopt;
    if (source.region.ruler_contact != RulerContact::apart) return std::nullopt;
    const auto extent = swatch_extent(source, lattice.row_direction_deg / degrees_per_radian);
    if (!extent) return std::nullopt;
    const double stitch_mm = lattice.stitch_pitch_px.value / lattice.px_per_mm;
    const double row_mm = lattice.row_pitch_px->value / lattice.px_per_mm;
    const double k = height.correction();
    const auto size = [&](double mm, double spread_mm, double pitch_mm) {
        return with(measured(k * mm, {{"ragged edge", std::hypot(spread_mm, 0.25 * pitch_mm) / mm}}), budget);
    };
    return WholeSwatch{
        size(evened.along_rows * extent->width_mm, evened.along_rows * extent->width_spread_mm, stitch_mm),
        size(evened.across_rows * extent->height_mm, evened.across_rows * extent->height_spread_mm, row_mm),
        counted(extent->width_mm, stitch_mm, lattice.stitch_pitch_px),
        counted(extent->height_mm, row_mm, *lattice.row_pitch_px)};
}

Warning no_stitch_network() {
    return {
        "no-stitch-network",
        "the weights of the network that names stitches are missing or damaged; the name is a rougher guess"};
}

}  // namespace

Outcome<SwatchResult> measure_swatch(const Photo& photo, const Knowledge& knowledge,
                                     const SwatchOptions& options, Trace& trace) {
    if (const auto quality = check_quality(photo.pyramid); !quality) return quality.refusal();
    // The ruler is followed on one core for half of its time.
    std::future<FabricOverview> ahead;
    if (options.area_px.empty())
        ahead = std::async(std::launch::async, [&photo] { return fabric_overview(photo); });
    const auto plane = find_reference(photo, knowledge.catalog, options.scale, trace);
    if (!plane) return plane.refusal();
    const auto loading = knowledge.recogniser.loading();
    const auto region =
        find_region(photo, options, *plane, ahead.valid() ? std::optional(ahead.get()) : std::nullopt);
    if (!region) return region.refusal();
    if (trace.wants_pictures()) trace.picture("fabric-mask", region->mask);
    trace.note("fabric: fills " + std::to_string(region->solidity) + " of its convex hull");

    const FaceHeight face = ruler_face_height(photo, plane->reference, options.ruler_thickness_mm);
    const double assumed_mm = surface_above(face, options, *plane, region->ruler_contact, first_stitch_mm).mm;
    const PatchSource source{photo.grey, *region, photo_from_plane_at(plane->rectification, assumed_mm)};
    const auto search = search_lattice(source, lattice_options(options, knowledge, source));
    if (!search) return search.refusal();
    trace_search(*search, trace);
    const auto proposals = propose(knowledge, *search, trace);
    if (!proposals) return proposals.refusal();
    if (options.area_px.empty() && region->solidity < least_solidity) return two_fabrics();
    const auto lattice = settle_lattice(source, *search, *proposals);
    if (!lattice) return lattice.refusal();

    trace.note(score_line(*lattice));
    trace_ridges(photo, *lattice, trace);
    if (const auto doubt = doubt_of(*lattice, *search, knowledge, options, trace)) return *doubt;

    const PhotoPoint middle = middle_of(*region);
    EvenedPlane evened{plane->rectification};
    if (const auto even = evened_plane(*plane, *lattice, assumed_mm, middle, trace)) evened = *even;

    const double stitch_mm = evened.along_rows * lattice->stitch_pitch_px.value / lattice->px_per_mm;
    const Surface surface = surface_above(face, options, *plane, region->ruler_contact, stitch_mm);
    const SurfaceHeight height{evened.rectification.camera_distance_mm, assumed_mm, surface.mm};
    const auto budget = [&](double direction_deg) {
        return scale_budget_at(evened.rectification, middle, surface.mm, surface.std_mm, direction_deg);
    };

    SwatchResult result;
    result.photo = photo_facts(photo);
    result.scale = scale_result({plane->reference, evened.rectification});
    result.stitch = lattice->stitch;
    if (options.stitch) {
        result.stitch.worked = options.worked;
    } else if (const StitchNamer* namer = knowledge.recogniser.namer()) {
        result.stitch = name_stitch(*namer, source, *lattice, *proposals, search->options.priors);
    } else if (knowledge.recogniser.get()) {
        result.warnings.push_back(no_stitch_network());
    }
    result.stitches_per_10cm = gauge_per_10cm(scaled(lattice->stitch_pitch_px, evened.along_rows),
                                              lattice->px_per_mm, height, budget(lattice->row_direction_deg));
    if (lattice->row_pitch_px) {
        result.rows_per_10cm =
            gauge_per_10cm(scaled(*lattice->row_pitch_px, evened.across_rows), lattice->px_per_mm, height,
                           budget(lattice->row_direction_deg + 90.0));
    }
    if (const auto whole =
            whole_swatch(source, *lattice, evened, height, budget(lattice->row_direction_deg))) {
        result.width_mm = whole->width_mm;
        result.height_mm = whole->height_mm;
        result.stitches = whole->stitches;
        result.rows = whole->rows;
    }
    for (const auto& rival : lattice->rivals) {
        const double mm = height.correction() / lattice->px_per_mm;
        result.rivals.push_back({span_10cm_mm / (rival.stitch_pitch_px * mm * evened.along_rows),
                                 span_10cm_mm / (rival.row_pitch_px * mm * evened.across_rows), rival.score});
    }
    result.corrected = corrected_in(options);
    const auto of_scale = scale_warnings(*plane);
    result.warnings.insert(result.warnings.end(), of_scale.begin(), of_scale.end());
    if (!options.stitch && !knowledge.recogniser.get()) {
        result.warnings.push_back({"no-recogniser",
                                   "the stitch recogniser's weights are missing or damaged; the plain method "
                                   "read the fabric alone"});
    }
    const auto more = lattice_warnings(*lattice, *region, options);
    result.warnings.insert(result.warnings.end(), more.begin(), more.end());
    result.overlay = overlay_of(*lattice, *region);
    return result;
}

}  // namespace ridgetally
