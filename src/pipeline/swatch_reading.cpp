#include "pipeline/swatch_reading.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <optional>
#include <sstream>

#include "core/units.h"
#include "gauge/gauge.h"
#include "image/quality.h"
#include "pipeline/confirm.h"
#include "pipeline/one_piece.h"
#include "pipeline/priors.h"
#include "pipeline/propose.h"
#include "pipeline/stitches_seen.h"
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

Refusal two_fabrics() {
    return {"fabric", "two-fabrics", "what looks like fabric in the photo is more than one piece",
            "leave one swatch in the frame, spread out flat, or bound the part to measure with --area"};
}

Outcome<FabricRegion> find_region(const Photo& photo, const SwatchOptions& options,
                                  const ScaleReference& reference,
                                  const std::optional<FabricOverview>& overview) {
    auto region = fabric_beside(photo, reference, options.area_px, overview);
    if (!region || !options.area_px.empty()) return region;
    const bool second_piece =
        !region->others.empty() &&
        cv::countNonZero(region->others.front()) > second_piece_part * cv::countNonZero(region->mask);
    if (second_piece) return two_fabrics();
    return region;
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

std::string score_line(const Lattice& lattice) {
    const auto& s = lattice.scores;
    std::ostringstream line;
    line << "lattice: stitch comb " << s.stitch_comb << ", row comb " << s.row_comb << ", line " << s.line
         << ", prior " << s.log_prior << ", total " << s.total << ", margin "
         << std::min(s.stitch_margin, s.row_margin) << ", coherence " << s.stitch_coherence << " and "
         << s.row_coherence;
    return line.str();
}

/// The overview that the search for fabric needs, begun beside the reading of the ruler, which keeps one core
/// busy for half of its time. None where the maker bounded the fabric.
std::future<FabricOverview> overview_ahead(const Photo& photo, const SwatchOptions& options) {
    if (!options.area_px.empty()) return {};
    return std::async(std::launch::async, [&photo] { return fabric_overview(photo); });
}

/// What lies in the photo: the plane of the reference, and the fabric.
struct Scene {
    ReferencePlane plane;
    FabricRegion region;
};

/// Neither the photo's quality nor the camera over the reference is needed to go on to the next step: they
/// are worked out beside it. The refusal is that of the first step that failed.
Outcome<Scene> read_scene(const Photo& photo, const Knowledge& knowledge, const SwatchOptions& options,
                          Trace& trace) {
    auto ahead = overview_ahead(photo, options);
    auto checking = std::async(std::launch::async, [&] { return check_quality(photo.pyramid); });
    auto reference = read_reference(photo, knowledge.catalog, options.scale, trace);
    if (const auto quality = checking.get(); !quality) return quality.refusal();
    if (!reference) return reference.refusal();
    auto fitting =
        std::async(std::launch::async, [&] { return rectify_reference(photo, *reference, options.scale); });
    auto region =
        find_region(photo, options, *reference, ahead.valid() ? std::optional(ahead.get()) : std::nullopt);
    auto rectification = fitting.get();
    if (!rectification) return rectification.refusal();
    note_camera(*rectification, trace);
    if (!region) return region.refusal();
    if (trace.wants_pictures()) trace.picture("fabric-mask", region->mask);
    trace.note("fabric: fills " + std::to_string(region->solidity) + " of its convex hull");
    return Scene{{std::move(reference).value(), std::move(rectification).value()}, std::move(region).value()};
}

void withhold_rows(Lattice& lattice) {
    lattice.row_pitch_px.reset();
    lattice.row_ridges.clear();
    lattice.rows_by_recogniser = false;
}

/// The lattice, from whose proposals, and what the recogniser says of it.
struct Settled {
    std::vector<Proposal> proposals;
    Lattice lattice;
    Opinion opinion;
};

/// Settles on a lattice that the recogniser agrees with. One that the plain search was sure of by itself and
/// the recogniser does not see is given up for what it proposes.
Outcome<Settled> settle(const Photo& photo, const PatchSource& source, const LatticeSearch& search,
                        Proposed proposed, const Knowledge& knowledge, const SwatchOptions& options,
                        Trace& trace) {
    auto lattice = settle_lattice(source, search, proposed.proposals);
    if (!lattice) return lattice.refusal();
    trace.note(score_line(*lattice));
    trace_ridges(photo, *lattice, trace);
    const auto opinion = opinion_on(*lattice, search, proposed.last_look, knowledge, options, trace);
    if (opinion) return Settled{std::move(proposed.proposals), std::move(lattice).value(), *opinion};
    if (proposed.asked) return opinion.refusal();
    auto asked = propose(knowledge, search, Ask::always, trace);
    if (!asked || asked->proposals.empty()) return opinion.refusal();
    return settle(photo, source, search, std::move(asked).value(), knowledge, options, trace);
}

/// What the plain search would claim.
ClaimedReading best_claim(const LatticeSearch& search) {
    const Reading& best = search.readings.front();
    return {best.stitch_pitch_px, best.row_pitch_px(), best.row_direction_rad};
}

/// Searches the fabric, and only what of it shows stitches where cloth around it may have been taken for it:
/// `source` then holds that part.
Outcome<LatticeSearch> search_fabric(const Photo& photo, PatchSource& source, const Knowledge& knowledge,
                                     const SwatchOptions& options, Trace& trace) {
    auto search = search_lattice(source, lattice_options(options, knowledge, source));
    if (!search || !options.area_px.empty() || !without_edges(source.region)) return search;
    auto part =
        stitches_seen(source.region, colour_view(photo, {}), *search, best_claim(*search), knowledge, trace);
    if (!part) return search;
    source.region = std::move(part).value();
    if (trace.wants_pictures()) trace.picture("fabric-mask", source.region.mask);
    return search_lattice(source, lattice_options(options, knowledge, source));
}

}  // namespace

Outcome<SwatchReading> read_swatch(const Photo& photo, const Knowledge& knowledge,
                                   const SwatchOptions& options, Trace& trace) {
    const auto loading = knowledge.recogniser.loading();
    auto found = read_scene(photo, knowledge, options, trace);
    if (!found) return found.refusal();
    auto scene = std::move(found).value();

    SwatchReading reading;
    reading.plane = std::move(scene.plane);
    reading.face =
        reference_face_height(photo, reading.plane, knowledge.catalog, options.ruler_thickness_mm, trace);
    reading.source = {photo.grey, std::move(scene.region), {}};
    reading.assumed_mm = surface_of(reading, options, first_stitch_mm).mm;
    reading.source.photo_from_plane = photo_from_plane_at(reading.plane.rectification, reading.assumed_mm);

    const auto search = search_fabric(photo, reading.source, knowledge, options, trace);
    if (!search) return search.refusal();
    trace_search(*search, trace);
    auto proposed = propose(knowledge, *search, Ask::where_unsure, trace);
    if (!proposed) return proposed.refusal();
    if (options.area_px.empty() && reading.source.region.solidity < least_solidity) return two_fabrics();
    auto settled =
        settle(photo, reading.source, *search, std::move(proposed).value(), knowledge, options, trace);
    const bool vouched_for = !options.area_px.empty() || options.repeat;
    const ClaimedReading claim = settled ? claim_of(settled->lattice, *search) : best_claim(*search);
    if (!vouched_for && ends_differ(claim, *search, knowledge, trace)) return two_fabrics();
    if (!settled) return settled.refusal();

    reading.priors = search->options.priors;
    reading.proposals = std::move(settled->proposals);
    reading.lattice = std::move(settled->lattice);
    reading.other_row_ratio = settled->opinion.other_row_ratio;
    if (reading.other_row_ratio) withhold_rows(reading.lattice);
    auto& rows = reading.lattice.row_pitch_px;
    if (rows && settled->opinion.rows_apart_std > 0.0)
        rows = with(*rows, {{"rows as the recogniser sees them", settled->opinion.rows_apart_std}});
    return reading;
}

namespace {

/// How likely the ruler lies on the fabric. A swatch pushed against the ruler and a ruler laid on its edge
/// look the same from above; of 16 drawn swatches that touched it along less than a side none lay under it.
double chance_under_ruler(RulerContact contact) {
    switch (contact) {
        case RulerContact::apart:
            return 0.0;
        case RulerContact::near:
            return 0.1;
        case RulerContact::beside:
            return 0.5;
        case RulerContact::across:
            return 1.0;
    }
    return 0.0;
}

}  // namespace

Surface surface_of(const SwatchReading& reading, const SwatchOptions& options, double stitch_mm) {
    const FaceHeight& face = reading.face;
    // Two points by hand lie on what they measure.
    if (reading.plane.reference.kind == "two-points" && !options.fabric_thickness_mm) return {};
    const double fabric_std =
        options.fabric_thickness_mm ? told_thickness_std_mm : surface_height_std_mm(stitch_mm);
    const double fabric_mm = options.fabric_thickness_mm.value_or(surface_height_mm(stitch_mm));
    // Beside the ruler the surface is that high above the table. A ruler that lies on the fabric presses it
    // down, and its underside lies on what the camera sees.
    const double under = chance_under_ruler(reading.source.region.ruler_contact);
    const double between_mm = std::sqrt(under * (1.0 - under)) * fabric_mm;
    return {(1.0 - under) * fabric_mm - face.mm, std::hypot(between_mm, fabric_std, face.std_mm)};
}

}  // namespace ridgetally
