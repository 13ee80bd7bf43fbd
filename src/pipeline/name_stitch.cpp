#include "pipeline/name_stitch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>

#include "core/units.h"

namespace ridgetally {
namespace {

/// A stitch less likely than not is not named.
constexpr double least_probability = 0.5;

/// The lattice as the network needs it.
struct Pitches {
    double stitch_mm = 0.0;
    double row_mm = 0.0;
    double upright_rad = 0.0;  ///< direction of a row on the plane, stitches standing upright on it
};

std::optional<Pitches> pitches_of(const Lattice& lattice, const Proposal* likely) {
    Pitches p;
    p.stitch_mm = lattice.stitch_pitch_px.value / lattice.px_per_mm;
    if (lattice.row_pitch_px) {
        p.row_mm = lattice.row_pitch_px->value / lattice.px_per_mm;
    } else if (likely != nullptr) {
        p.row_mm = likely->row_pitch_mm;
    } else {
        return std::nullopt;
    }
    p.upright_rad = lattice.row_direction_deg / degrees_per_radian;
    if (likely != nullptr && std::cos(p.upright_rad - likely->row_direction_rad) < 0.0)
        p.upright_rad += std::numbers::pi;
    return p;
}

std::optional<FabricPatch> patch_of(const PatchSource& source, const Pitches& pitches) {
    PatchOptions options;
    options.rotation_rad = pitches.upright_rad;
    options.px_per_mm = StitchNamer::pitch_px / std::sqrt(pitches.stitch_mm * pitches.row_mm);
    options.most_side_px = StitchNamer::most_side_px;
    return cut_patch(source, options);
}

using Probabilities = std::array<double, recognised_family_count>;

/// Where the probability of the same stitch through both loops stands.
std::size_t any_loop_of(std::size_t k) {
    return static_cast<std::size_t>(through_both_loops(static_cast<StitchFamily>(k)));
}

/// What the network of the phase fields saw while it searched. No family is impossible.
Probabilities first_look(const Proposal& proposal) {
    constexpr double floor = 0.01;
    Probabilities first;
    double named = 0.0;
    for (std::size_t k = 0; k < stitch_family_count; ++k) {
        named += proposal.family.at(k);
        first.at(k) = proposal.family.at(k) + floor;
    }
    first.back() = std::max(0.0, 1.0 - named) + floor;
    return first;
}

/// The likeliest stitch whatever its loop, and of that the loop that is likeliest in `loops`.
StitchReading likeliest(const Probabilities& family, const Probabilities& loops) {
    Probabilities any_loop{};
    for (std::size_t k = 0; k < family.size(); ++k) any_loop.at(any_loop_of(k)) += family.at(k);
    const auto stitch = static_cast<std::size_t>(
        std::max_element(any_loop.begin(), any_loop.begin() + stitch_family_count) - any_loop.begin());
    std::size_t best = stitch;
    double all_loops = 0.0;
    for (std::size_t k = 0; k < stitch_family_count; ++k) {
        if (any_loop_of(k) != stitch) continue;
        all_loops += loops.at(k);
        if (loops.at(k) > loops.at(best)) best = k;
    }
    StitchReading result;
    result.source = StitchSource::recognised;
    result.any_loop_confidence = any_loop.at(stitch);
    result.confidence = all_loops > 0.0 ? any_loop.at(stitch) * loops.at(best) / all_loops : 0.0;
    if (result.any_loop_confidence >= least_probability) result.family = static_cast<StitchFamily>(best);
    return result;
}

Probabilities normalised(Probabilities p) {
    const double sum = std::accumulate(p.begin(), p.end(), 0.0);
    for (double& each : p) each /= sum;
    return p;
}

std::array<HeightToWidthPrior, stitch_family_count> heights_of(const std::vector<FamilyPrior>& priors) {
    std::array<HeightToWidthPrior, stitch_family_count> heights;
    for (const FamilyPrior& prior : priors)
        heights.at(static_cast<std::size_t>(prior.family)) = {prior.height_over_width, prior.log_std};
    return heights;
}

StitchReading unnamed() {
    StitchReading result;
    result.source = StitchSource::recognised;
    result.confidence = result.any_loop_confidence = 0.0;
    return result;
}

}  // namespace

StitchReading name_stitch(const StitchNamer& namer, const PatchSource& source, const Lattice& lattice,
                          const std::vector<Proposal>& proposals, const std::vector<FamilyPrior>& priors) {
    const Proposal* likely = strongest_of(proposals);
    const auto pitches = pitches_of(lattice, likely);
    const auto patch = pitches ? patch_of(source, *pitches) : std::nullopt;
    if (!patch) return unnamed();
    const KindProbabilities seen = namer.look_at(patch->grey, patch->mask);
    Probabilities family = seen.family;
    Probabilities loops = seen.family;
    if (likely != nullptr) {
        loops = first_look(*likely);
        for (std::size_t k = 0; k < family.size(); ++k) family.at(k) *= loops.at(k);
    }
    const auto heights = heights_of(priors);
    const double height_over_width = pitches->row_mm / pitches->stitch_mm;
    // Rows that the lattice leaves open may be half or double ones: their height says nothing.
    const auto weighed = [&](const Probabilities& p) {
        return lattice.row_pitch_px ? family_given_height(p, height_over_width, heights) : normalised(p);
    };
    StitchReading result = likeliest(weighed(family), weighed(loops));
    result.worked = seen.round > 0.5 ? Worked::round : Worked::flat;
    return result;
}

}  // namespace ridgetally
