#include "recogniser/group.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ridgetally {
namespace {

// Half the distance between a reading and its nearest rival that is not a measuring error: neighbouring rival
// pitches differ by a third at least (2 for 3), so 1.15 keeps them apart and uneven tension together.
constexpr double same_ratio = 1.15;
constexpr int tiles_that_count = 3;

bool within(double a, double b, double ratio) { return a < b * ratio && b < a * ratio; }

bool belongs(const Glimpse& g, const Glimpse& leader) {
    return same_pitches(g.stitch_pitch_px, g.row_pitch_px, leader.stitch_pitch_px, leader.row_pitch_px,
                        same_ratio) &&
           same_line(g.row_direction_rad, leader.row_direction_rad);
}

FabricReading reading_of(const std::vector<Glimpse>& members) {
    const Glimpse& best = members.front();
    FabricReading out{best.stitch_pitch_px,
                      best.row_pitch_px,
                      best.row_direction_rad,
                      0.0,
                      best.stitch_score,
                      best.row_score,
                      static_cast<int>(members.size()),
                      {},
                      0.0,
                      best.frame};
    double total = 0.0;
    for (std::size_t i = 0; i < members.size(); ++i) {
        const Glimpse& g = members[i];
        if (i < tiles_that_count) out.score += g.score / tiles_that_count;
        const double weight = g.score * g.score;
        total += weight;
        for (std::size_t k = 0; k < out.family.size(); ++k) out.family[k] += weight * g.kinds.family[k];
        out.round += weight * g.kinds.round;
    }
    for (double& p : out.family) p /= total;
    out.round /= total;
    return out;
}

/// Normal density in the logarithm of the ratio, without its constant.
double density(double ratio, const HeightToWidthPrior& prior) {
    const double z = std::log(ratio / prior.mean) / prior.relative_std;
    return std::exp(-0.5 * z * z) / prior.relative_std;
}

}  // namespace

std::array<double, recognised_family_count> family_given_height(
    const std::array<double, recognised_family_count>& seen, double height_over_width,
    const std::array<HeightToWidthPrior, recognised_family_count - 1>& priors) {
    constexpr HeightToWidthPrior anything{1.0, 0.5};
    auto family = seen;
    double total = 0.0;
    for (std::size_t k = 0; k < family.size(); ++k) {
        family[k] *= density(height_over_width, k < priors.size() ? priors[k] : anything);
        total += family[k];
    }
    if (total <= 0.0) return seen;
    for (double& p : family) p /= total;
    return family;
}

bool same_pitches(double stitch_a, double row_a, double stitch_b, double row_b, double ratio) {
    return within(stitch_a, stitch_b, ratio) && within(row_a, row_b, ratio);
}

bool same_line(double direction_a_rad, double direction_b_rad) {
    constexpr double same_line_rad = 0.35;
    return std::abs(std::sin(direction_a_rad - direction_b_rad)) < std::sin(same_line_rad);
}

std::vector<FabricReading> grouped(std::vector<Glimpse> glimpses) {
    std::stable_sort(glimpses.begin(), glimpses.end(),
                     [](const Glimpse& a, const Glimpse& b) { return a.score > b.score; });
    std::vector<std::vector<Glimpse>> groups;
    for (const Glimpse& g : glimpses) {
        const auto home = std::find_if(groups.begin(), groups.end(), [&](const std::vector<Glimpse>& group) {
            return belongs(g, group.front());
        });
        if (home == groups.end()) {
            groups.push_back({g});
        } else {
            home->push_back(g);
        }
    }
    std::vector<FabricReading> readings;
    for (const auto& group : groups) readings.push_back(reading_of(group));
    std::stable_sort(readings.begin(), readings.end(),
                     [](const FabricReading& a, const FabricReading& b) { return a.score > b.score; });
    return readings;
}

}  // namespace ridgetally
