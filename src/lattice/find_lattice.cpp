#include "lattice/find_lattice.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/units.h"
#include "lattice/autocorrelation.h"
#include "lattice/refine.h"
#include "lattice/ridges.h"
#include "lattice/texture.h"

namespace ridgetally {
namespace {

/// The overview search: fine enough for the finest stitch to be 9 px wide, coarse enough to be quick.
constexpr double search_px_per_mm = 4.0;
constexpr int search_side_px = 640;
/// The refinement: a stitch this wide shows both legs of a V with four pixels each.
constexpr double refined_stitch_px = 16.0;
/// Comb scores below this come from noise as well: white noise over a patch of 600 px reaches 0.04 in 200
/// draws.
constexpr double least_stitch_comb = 0.08;
constexpr double direction_step_rad = 2.0 / degrees_per_radian;

std::vector<double> directions_to_try(const LatticeOptions& options) {
    std::vector<double> result;
    const auto around = [&](double centre, double reach) {
        for (double d = -reach; d <= reach + 1e-9; d += direction_step_rad) result.push_back(centre + d);
    };
    if (options.row_hint == RowHint::none) {
        around(0.0, std::numbers::pi / 2);
    } else {
        around(options.row_direction_rad, options.row_tolerance_rad);
        if (options.row_hint == RowHint::modulo_90) {
            around(options.row_direction_rad + std::numbers::pi / 2, options.row_tolerance_rad);
        }
    }
    return result;
}

/// A textured pattern is looked for as one big stitch.
LatticeOptions for_repeats(LatticeOptions options) {
    if (options.stitches_per_repeat == 1 && options.rows_per_repeat == 1) return options;
    for (auto& prior : options.priors) {
        prior.height_over_width *= static_cast<double>(options.rows_per_repeat) / options.stitches_per_repeat;
        prior.rows_per_period = {1};
    }
    options.least_stitch_mm *= options.stitches_per_repeat;
    options.most_stitch_mm *= options.stitches_per_repeat;
    return options;
}

std::vector<Reading> readings_of(const FabricPatch& patch, const LatticeOptions& options) {
    SearchOptions search;
    const double shorter = std::min(patch.mask.cols, patch.mask.rows);
    search.row_directions_rad = directions_to_try(options);
    search.least_stitch_px = std::max(6.0, options.least_stitch_mm * patch.px_per_mm);
    search.most_stitch_px =
        std::min(options.most_stitch_mm * patch.px_per_mm, 0.6 * std::max(patch.mask.cols, patch.mask.rows));
    search.most_period_px = std::min(2.2 * search.most_stitch_px, 0.6 * shorter);
    search.priors = options.priors;
    TextureOptions texture;
    texture.window_px = std::sqrt(search.least_stitch_px * search.most_stitch_px);
    texture.gradient_px = std::max(0.8, 0.12 * search.least_stitch_px);
    const auto channels = texture_channels(patch.grey, patch.mask, texture);
    const int reach = static_cast<int>(
        std::min(3.2 * search.most_stitch_px, 0.9 * std::max(patch.mask.cols, patch.mask.rows)));
    return search_readings(autocorrelation(channels, patch.mask, reach), search);
}

bool differs(const Reading& a, const Reading& b) {
    return std::abs(std::log(a.stitch_pitch_px / b.stitch_pitch_px)) > 0.12 ||
           std::abs(std::log(a.row_pitch_px() / b.row_pitch_px())) > 0.12;
}

FabricPatch aligned_patch(const PatchSource& source, double direction_rad, double stitch_mm,
                          double photo_px_per_mm) {
    PatchOptions options;
    options.rotation_rad = direction_rad;
    options.px_per_mm = std::min(refined_stitch_px / stitch_mm, 1.5 * photo_px_per_mm);
    options.most_side_px = 1000;
    return cut_patch(source, options).value_or(FabricPatch{});
}

Refusal no_texture() {
    return {"lattice", "no-texture", "no repeating stitches found in the fabric",
            "come nearer, keep the phone steady and let light fall from the side so that the stitches cast "
            "shadows"};
}

}  // namespace

Outcome<Lattice> find_lattice(const PatchSource& source, const LatticeOptions& told) {
    const LatticeOptions options = for_repeats(told);
    const auto plane_from_photo = inverse(source.photo_from_plane);
    if (!plane_from_photo) return no_texture();
    const double photo_px_per_mm =
        px_per_mm_along(source.photo_from_plane, (*plane_from_photo)(middle_of(source.region)), 1, 0);
    PatchOptions overview;
    overview.px_per_mm = std::min(search_px_per_mm * 2.4 / options.least_stitch_mm, photo_px_per_mm);
    overview.most_side_px = search_side_px;
    const auto patch = cut_patch(source, overview);
    if (!patch || cv::countNonZero(patch->mask) == 0) return no_texture();
    const auto readings = readings_of(*patch, options);
    if (readings.empty()) return no_texture();

    const Reading& best = readings.front();
    if (best.stitch_score < least_stitch_comb) return no_texture();
    double direction = best.row_direction_rad;
    double stitch_mm = best.stitch_pitch_px / patch->px_per_mm;
    double period_mm = best.period_px / patch->px_per_mm;
    FabricPatch aligned;
    RefinedReading refined;
    // Windows at the border see more of one side, which pulls a pitch towards its first guess: guess again.
    for (int pass = 0; pass < 3; ++pass) {
        aligned = aligned_patch(source, direction, stitch_mm, photo_px_per_mm);
        if (aligned.grey.empty() || cv::countNonZero(aligned.mask) == 0) return no_texture();
        const double stitch_px = stitch_mm * aligned.px_per_mm;
        const double period_px = period_mm * aligned.px_per_mm;
        refined = refine_reading(aligned, stitch_px, period_px);
        const bool settled = std::abs(refined.row_tilt_rad) < 0.5 / degrees_per_radian &&
                             std::abs(refined.stitch_pitch_px.value / stitch_px - 1.0) < 0.01 &&
                             std::abs(refined.period_px.value / period_px - 1.0) < 0.01;
        if (settled || pass == 2) break;
        direction += refined.row_tilt_rad;
        stitch_mm = refined.stitch_pitch_px.value / aligned.px_per_mm;
        period_mm = refined.period_px.value / aligned.px_per_mm;
    }

    Lattice lattice;
    lattice.px_per_mm = aligned.px_per_mm;
    lattice.photo_from_rectified = aligned.photo_from_rectified;
    lattice.row_direction_deg = direction * degrees_per_radian;
    lattice.stitch_pitch_px = scaled(refined.stitch_pitch_px, 1.0 / options.stitches_per_repeat);
    lattice.row_pitch_px = scaled(refined.period_px, 1.0 / (best.rows_per_period * options.rows_per_repeat));
    lattice.stitch = {best.family, std::nullopt, options.source, 1.0};
    lattice.parts = refined.parts;
    for (auto& part : lattice.parts) {
        part.stitch_pitch_px /= options.stitches_per_repeat;
        part.row_pitch_px /= best.rows_per_period * options.rows_per_repeat;
    }
    lattice.scores = {best.stitch_score, best.row_score,           best.line_score,
                      best.log_prior,    refined.stitch_coherence, refined.row_coherence};
    for (const auto& rival : readings) {
        if (!differs(rival, best)) continue;
        const double to_aligned = aligned.px_per_mm / patch->px_per_mm;
        lattice.rivals.push_back({rival.stitch_pitch_px * to_aligned / options.stitches_per_repeat,
                                  rival.row_pitch_px() * to_aligned / options.rows_per_repeat,
                                  rival.score / best.score});
        if (lattice.rivals.size() >= 3) break;
    }
    lattice.row_ridges =
        row_ridges(refined.row_fields, aligned.mask, best.rows_per_period * options.rows_per_repeat);
    lattice.stitch_ridges =
        stitch_ridges(refined.stitch_fields, lattice.row_ridges, aligned.mask, options.stitches_per_repeat);
    return lattice;
}

}  // namespace ridgetally
