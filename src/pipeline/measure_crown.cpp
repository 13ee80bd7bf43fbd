#include "pipeline/measure_crown.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/units.h"
#include "disc/disc_outline.h"
#include "disc/disc_rounds.h"
#include "disc/fabric_look.h"
#include "disc/told_rim.h"
#include "gauge/gauge.h"
#include "image/quality.h"
#include "pipeline/crown_outline.h"
#include "pipeline/crown_warnings.h"
#include "pipeline/priors.h"
#include "pipeline/reference.h"
#include "pipeline/rim_height.h"
#include "pipeline/ruler_height.h"

namespace ridgetally {
namespace {

/// Whether the rim was found in the photo or marked by hand.
enum class Edge { found, told };

/// What is left of the edge itself: half a pixel all round (the lens's and the fuzz's side of it is the same
/// everywhere). Hidden parts count by how far the rest is from a circle. That a rim may not lie flat is part
/// of its height.
std::vector<Contribution> outline_parts(const DiscOutline& outline, Edge edge) {
    constexpr double edge_px = 0.5;
    const double radius = 0.5 * outline.area_diameter_mm();
    const double filled = 1.0 - outline.part_of(RimPlace::edge);
    // A filled part is as good as the rest is round, but never better than a fiftieth of the radius:
    // neighbours of a loop or a dark shadow are often drawn along with it.
    constexpr double least_doubt = 0.02;
    const double doubt = std::max(std::max(outline.out_of_round_mm, outline.spread_mm) / radius, least_doubt);
    const double told_part = edge == Edge::told ? told_rim_std_mm / radius : 0.0;
    return {{"edge", std::hypot(edge_px / outline.px_per_mm / radius, told_part)},
            {"hidden edge", filled * doubt}};
}

class CrownSize {
  public:
    /// `correction`: true lengths over those on the outline's plane.
    CrownSize(const DiscOutline& outline, Edge edge, const ReferencePlane& plane, const RimHeight& rim,
              double correction)
        : outline_(outline),
          edge_(edge),
          plane_(plane),
          rim_(rim),
          correction_(correction),
          middle_px_(outline.photo_from_plane(outline.centre_mm)) {}

    [[nodiscard]] Measured diameter() const {
        return with(measured(correction_ * outline_.area_diameter_mm(), outline_parts(outline_, edge_)),
                    budget(std::nullopt));
    }
    /// Of a length through the centre in that direction, on the outline's plane.
    [[nodiscard]] Measured across(double mm, double angle_rad) const {
        return with(measured(correction_ * mm, outline_parts(outline_, edge_)),
                    budget(angle_rad * degrees_per_radian));
    }
    /// What is uncertain of the edge itself, as parts of the radius.
    [[nodiscard]] std::vector<Contribution> edge_parts() const { return outline_parts(outline_, edge_); }
    /// A length on the outline's plane, made true, with the scale's uncertainty besides its own.
    [[nodiscard]] Measured length(double mm, const std::vector<Contribution>& own) const {
        return with(measured(correction_ * mm, own), budget(std::nullopt));
    }

  private:
    [[nodiscard]] std::vector<Contribution> budget(std::optional<double> direction_deg) const {
        return scale_budget_at(plane_.rectification, middle_px_, rim_.mm, rim_.std_mm, direction_deg);
    }
    const DiscOutline& outline_;
    Edge edge_;
    const ReferencePlane& plane_;
    RimHeight rim_;
    double correction_;
    PhotoPoint middle_px_;
};

double through_centre_mm(const DiscOutline& even, double angle) {
    return even.radius_at(angle) + even.radius_at(angle + std::numbers::pi);
}

DirectedDiameter directed(const DiscOutline& even, const CrownSize& size, double angle) {
    DirectedDiameter result;
    result.diameter_mm = size.across(through_centre_mm(even, angle), angle);
    const auto end = [&](double a) {
        const double r = even.radius_at(a);
        return even.photo_from_plane(
            ObjectPoint{even.centre_mm.x + r * std::cos(a), even.centre_mm.y + r * std::sin(a)});
    };
    result.from_px = end(angle + std::numbers::pi);
    result.to_px = end(angle);
    result.direction_deg =
        std::atan2(result.to_px.y - result.from_px.y, result.to_px.x - result.from_px.x) * degrees_per_radian;
    return result;
}

/// The smallest of the diameters through the centre is never larger than that of the circle of the same area,
/// whose radius is the root of the mean square. Three-lobed outlines have none that is larger by more than
/// second order: the largest is at least the circle's.
void measure_diameters(const DiscOutline& outline, const CrownSize& size, CrownResult& result) {
    result.diameter_mm = size.diameter();
    const DiscOutline even = evened(outline);
    double smallest = 0.0;
    double largest = 0.0;
    constexpr int directions = 90;
    for (int k = 0; k < directions; ++k) {
        const double angle = std::numbers::pi * k / directions;
        if (through_centre_mm(even, angle) < through_centre_mm(even, smallest)) smallest = angle;
        if (through_centre_mm(even, angle) > through_centre_mm(even, largest)) largest = angle;
    }
    const double area_mm = outline.area_diameter_mm();
    result.diameter_min_mm = size.across(std::min(area_mm, through_centre_mm(even, smallest)), smallest);
    result.diameter_max_mm = size.across(std::max(area_mm, through_centre_mm(even, largest)), largest);
    for (int k = 0; k < 4; ++k) result.diameters.push_back(directed(even, size, std::numbers::pi * k / 4));
}

CrownOverlay overlay_of(const DiscOutline& outline) {
    CrownOverlay overlay;
    overlay.centre_px = outline.photo_from_plane(outline.centre_mm);
    for (std::size_t i = 0; i < outline.radius_mm.size(); i += 2) {
        const PhotoPoint p = outline.photo_from_plane(outline.point(i));
        overlay.outline.push_back(p);
        if (outline.places[i] != RimPlace::hidden) continue;
        auto& parts = overlay.hidden_rim;
        const bool goes_on = !parts.empty() && parts.back().index == static_cast<int>(i) - 2;
        if (!goes_on) parts.push_back({});
        parts.back().index = static_cast<int>(i);
        parts.back().points.push_back(p);
    }
    return overlay;
}

/// Half a unit either way holds the number alone; what cannot be excluded widens it evenly.
CountedWhole counted(const WholeCount& count) {
    constexpr double alone = 0.49;
    const double reach = std::max(count.value - count.least, count.most - count.value) + alone;
    return {{static_cast<double>(count.value), reach / coverage_factor_95, {}},
            count.least,
            count.most,
            count.chance};
}

/// Of a count: its own uncertainty, as a part of what is worked out from it.
Contribution count_part(const CountedWhole& count) {
    const double doubt = count.least == count.most ? 0.0 : count.count.relative_std();
    return {"stitch count", doubt};
}

/// Round the middle of the last round, where its stitches are as wide as they would be in flat work.
double last_round_mm(const DiscRounds& rounds, const DiscOutline& outline) {
    return std::numbers::pi * (outline.area_diameter_mm() - rounds.row_mm);
}

/// Rounds, stitches and the gauge they give.
void report_rounds(const DiscRounds& rounds, const DiscOutline& outline, const CrownSize& size,
                   CrownResult& result) {
    result.rounds = counted(rounds.rounds);
    for (const auto& count : rounds.stitches) result.round_stitches.push_back(counted(count));
    const Measured row = size.length(rounds.row_mm, {{"uneven rounds", rounds.row_std_mm / rounds.row_mm}});
    result.rounds_per_10cm = reciprocal(span_10cm_mm, row);
    // The round outside hides half a yarn of a round's top: good to a tenth of its height.
    for (std::size_t k = rounds.round_radius_mm.size(); k-- > 0;) {
        const double radius = rounds.round_radius_mm[k];
        result.round_diameters.push_back(
            {rounds.rounds.value - static_cast<int>(k),
             size.length(2.0 * radius, {{"top of the round", 0.1 * rounds.row_mm / radius}})});
    }
    if (result.round_stitches.empty()) return;
    result.last_round_stitches = result.round_stitches.front();
    const auto& last = *result.last_round_stitches;
    auto parts = size.edge_parts();
    parts.push_back(count_part(last));
    result.stitches_per_10cm =
        reciprocal(span_10cm_mm * last.count.value, size.length(last_round_mm(rounds, outline), parts));
}

void draw_rounds(const DiscRounds& rounds, const DiscOutline& outline, CrownOverlay& overlay) {
    const double rim_mm = 0.5 * outline.area_diameter_mm();
    for (std::size_t k = 1; k < rounds.round_radius_mm.size(); ++k) {
        PhotoCurve curve;
        curve.index = rounds.rounds.value - static_cast<int>(k);
        for (std::size_t i = 0; i <= outline.radius_mm.size(); i += 8) {
            const std::size_t at = i % outline.radius_mm.size();
            const ObjectPoint p = outline.point(at);
            const double part = rounds.round_radius_mm[k] / rim_mm;
            curve.points.push_back(outline.photo_from_plane(
                ObjectPoint{outline.centre_mm.x + part * (p.x - outline.centre_mm.x),
                            outline.centre_mm.y + part * (p.y - outline.centre_mm.y)}));
        }
        overlay.rounds.push_back(std::move(curve));
    }
}

void draw_stitches(const DiscRounds& rounds, const DiscOutline& outline, CrownOverlay& overlay) {
    const double foot = 1.0 - 2.0 * rounds.row_mm / outline.area_diameter_mm();
    for (const double at : rounds.stitch_turns) {
        const double angle = 2.0 * std::numbers::pi * at;
        const double r = outline.radius_at(angle);
        PhotoCurve stroke{static_cast<int>(overlay.stitches.size()), {}};
        for (const double part : {1.0, foot})
            stroke.points.push_back(
                outline.photo_from_plane(ObjectPoint{outline.centre_mm.x + part * r * std::cos(angle),
                                                     outline.centre_mm.y + part * r * std::sin(angle)}));
        overlay.stitches.push_back(std::move(stroke));
    }
}

Refusal not_the_rim() {
    return {"disc", "too-little-rim", "stitches go on beyond the edge that was found: it is not the crown's",
            "take the photo so that the whole edge is in the frame, on a plain table, or set points on it "
            "with --rim"};
}

std::optional<double> told_height_over_width(const Catalog& catalog, std::optional<StitchFamily> told) {
    if (!told) return std::nullopt;
    const auto priors = priors_for(catalog, told, Worked::round);
    return priors.empty() ? std::nullopt : std::optional(priors.front().height_over_width);
}

std::vector<std::string> corrected_in(const CrownOptions& options) {
    auto corrected = corrected_of(options.scale);
    if (!options.area_px.empty()) corrected.emplace_back("area");
    if (!options.rim_px.empty()) corrected.emplace_back("rim");
    return corrected;
}

/// Rounds and stitches; none where the recogniser or what it needs to see is missing, with what to say of it.
struct Counts {
    std::optional<DiscRounds> rounds;
    std::optional<Warning> instead;
};

/// Refuses where the edge is not the crown's, and where no rounds are read and the disc may be anything.
Outcome<Counts> count_rounds(const Photo& photo, const Knowledge& knowledge, const CrownOptions& options,
                             const DiscOutline& outline, Trace& trace) {
    const Recogniser* recogniser = knowledge.recogniser.get();
    if (recogniser == nullptr)
        return Counts{{},
                      Warning{"no-recogniser",
                              "the stitch recogniser's weights are missing or damaged; rounds and stitches "
                              "were not counted"}};
    DiscRoundsOptions rounds_options;
    rounds_options.height_over_width = told_height_over_width(knowledge.catalog, options.stitch);
    auto read = read_rounds(*recogniser, photo.pyramid, outline, rounds_options);
    if (!read) {
        const FabricLook look = look_for_fabric(*recogniser, photo.pyramid, outline);
        trace.note("disc: no rounds read; fabric in every twelfth of it at least " +
                   std::to_string(look.least_inside) + ", beyond its edge at most " +
                   std::to_string(look.most_outside) + ", rows along the rounds " +
                   std::to_string(look.rows_along));
        if (!surely_fabric(look)) return read.refusal();
        return Counts{{},
                      Warning{"rounds-unread",
                              "rounds and stitches cannot be made out in this photo, so only the size was "
                              "measured: let light fall from the side or come nearer, or count them by eye"}};
    }
    for (const auto& note : read->notes) trace.note(note);
    if (options.rim_px.empty() && read->fabric_outside > most_fabric_outside) return not_the_rim();
    return Counts{std::move(read).value(), {}};
}

/// Of the last round, as counted.
RimStitch rim_stitch(const DiscRounds& rounds, const DiscOutline& outline) {
    if (rounds.stitches.empty()) return unread_stitch;
    return {last_round_mm(rounds, outline) / rounds.stitches.front().value, 0.0, rounds.one_loop_chance};
}

}  // namespace

Outcome<CrownResult> measure_crown(const Photo& photo, const Knowledge& knowledge,
                                   const CrownOptions& options, Trace& trace) {
    if (const auto quality = check_quality(photo.pyramid); !quality) return quality.refusal();
    const auto plane = find_reference(photo, knowledge.catalog, options.scale, trace);
    if (!plane) return plane.refusal();
    const auto loading = knowledge.recogniser.loading();
    const FaceHeight face =
        reference_face_height(photo, *plane, knowledge.catalog, options.ruler_thickness_mm, trace);
    const double assumed_mm = rim_above(face, options, *plane, unread_stitch).mm;
    const auto outline = crown_outline(photo, *plane, assumed_mm, options, trace);
    if (!outline) return outline.refusal();

    auto counts = count_rounds(photo, knowledge, options, *outline, trace);
    if (!counts) return counts.refusal();
    const auto& rounds = counts->rounds;
    const RimStitch stitch = rounds ? rim_stitch(*rounds, *outline) : unread_stitch;
    const RimHeight rim = rim_above(face, options, *plane, stitch);
    const SurfaceHeight height{plane->rectification.camera_distance_mm, assumed_mm, rim.mm};
    const Edge edge = options.rim_px.empty() ? Edge::found : Edge::told;
    const CrownSize size(*outline, edge, *plane, rim, height.correction());

    CrownResult result;
    result.photo = photo_facts(photo);
    result.scale = scale_result(*plane);
    result.stitch.family = options.stitch;
    result.stitch.worked = Worked::round;
    measure_diameters(*outline, size, result);
    result.rim_seen_part = 1.0 - outline->part_of(RimPlace::hidden);
    result.overlay = overlay_of(*outline);
    result.corrected = corrected_in(options);
    result.warnings = scale_warnings(*plane);
    if (rounds) {
        report_rounds(*rounds, *outline, size, result);
        draw_rounds(*rounds, *outline, result.overlay);
        draw_stitches(*rounds, *outline, result.overlay);
    }
    if (counts->instead) result.warnings.push_back(*counts->instead);
    const auto more = crown_warnings(*outline, result);
    result.warnings.insert(result.warnings.end(), more.begin(), more.end());
    return result;
}

}  // namespace ridgetally
