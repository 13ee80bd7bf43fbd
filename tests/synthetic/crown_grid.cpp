#include "synthetic/crown_grid.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "core/random.h"
#include "core/units.h"
#include "synthetic/fabric_grid.h"

namespace ridgetally::synthetic {
namespace {

using std::numbers::pi;

/// Edges of `count` neighbours around a whole turn whose widths scatter, beginning at `start` turns.
std::vector<double> edges_around(int count, double start, double scatter, Random& random) {
    std::vector<double> edges = scattered_boundaries(count, 1.0, scatter, random);
    const double total = edges.back();
    for (double& e : edges) e = start + e / total;
    return edges;
}

const Crown& crown_of(const Fabric& fabric) {
    if (!fabric.crown || fabric.crown->rounds.empty())
        throw std::invalid_argument("CrownGrid: the fabric is no crown with rounds");
    return *fabric.crown;
}

}  // namespace

CrownGrid::CrownGrid(const Fabric& fabric) : fabric_(fabric), crown_(crown_of(fabric)) {
    Random random(fabric.seed * 2 + 1);
    radii_.push_back(crown_.ring_mm);
    double start = random.uniform(0.0, 1.0);
    for (const CrownRound& round : crown_.rounds) {
        const double height =
            round.height_mm * std::clamp(1.0 + random.normal(0.0, 0.5 * fabric.unevenness), 0.75, 1.25);
        radii_.push_back(radii_.back() + height);
        Round laid;
        laid.edges = edges_around(round.stitches, start, fabric.unevenness, random);
        for (int i = 0; i < round.stitches; ++i) {
            const auto k = static_cast<std::size_t>(i);
            double foot = 0.5 * (laid.edges[k] + laid.edges[k + 1]);
            if (!rounds_.empty()) {  // over the stitch of the round below that it is worked into
                const auto& below = rounds_.back().edges;
                const double count = static_cast<double>(below.size()) - 1.0;
                const auto parent = static_cast<std::size_t>(std::floor((i + 0.5) / round.stitches * count));
                double middle = 0.5 * (below[parent] + below[parent + 1]);
                middle += std::round(foot - middle);
                const double limit = 0.7 / round.stitches;  // columns lean, they do not lie down
                foot += crown_.increase_pull * std::clamp(middle - foot, -limit, limit);
            }
            laid.feet.push_back(foot);
        }
        laid.foot_width = 1.0 - 0.35 * crown_.increase_pull;
        rounds_.push_back(std::move(laid));
        start += fabric.round_shift / round.stitches;
    }
    wave_phase_ = random.uniform(0.0, 2.0 * pi);
    waves_ = random.whole(3, 7);
}

Vec3 CrownGrid::placed(double turns, double radius_mm) const {
    const double angle = 2.0 * pi * turns;
    const double x = radius_mm * (1.0 + 0.5 * crown_.oval) * std::cos(angle);
    const double y = radius_mm * (1.0 - 0.5 * crown_.oval) * std::sin(angle);
    const double a = fabric_.angle_deg / degrees_per_radian;
    const double rim = std::pow(std::clamp(radius_mm / radii_.back(), 0.0, 1.2), 5.0);
    const double lift =
        rim * (crown_.cup_mm + 0.5 * crown_.wave_mm * (1.0 + std::sin(waves_ * angle + wave_phase_)));
    return {fabric_.centre_x_mm + std::cos(a) * x - std::sin(a) * y,
            fabric_.centre_y_mm + std::sin(a) * x + std::cos(a) * y, lift};
}

Vec3 CrownGrid::at(int round, int stitch, double across, double up) const {
    const auto r = static_cast<std::size_t>(round);
    const auto s = static_cast<std::size_t>(stitch);
    const Round& laid = rounds_[r];
    const double width = laid.edges[s + 1] - laid.edges[s];
    const double top = laid.edges[s] + across * width;
    const double foot = laid.feet[s] + (across - 0.5) * laid.foot_width * width;
    constexpr double gathered = 0.6;  // two stitches worked into one part above its foot and stand evenly
    const double rise = std::clamp(up / gathered, 0.0, 1.0);
    const double turns = foot + rise * rise * (3.0 - 2.0 * rise) * (top - foot);
    const double height = radii_[r + 1] - radii_[r];
    double radius = radii_[r] + up * height;
    if (crown_.joining == Joining::spiral) {
        constexpr double taper = 0.2;  // turns over which the last round runs out
        const double gone = top - laid.edges.front();
        const double full = r + 1 < rounds_.size() ? 1.0 : std::clamp((1.0 - gone) / taper, 0.15, 1.0);
        radius = radii_[r] + (gone - 0.5 + up * full) * height;  // climbs by one round a turn
    }
    return placed(turns, std::max(radius, 0.3 * crown_.ring_mm));
}

Vec3 CrownGrid::ring_at(double turns) const { return placed(turns, crown_.ring_mm); }

}  // namespace ridgetally::synthetic
