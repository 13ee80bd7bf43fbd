#include "synthetic/weaving.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "synthetic/stitch_paths.h"

namespace ridgetally::synthetic {
namespace {

using std::numbers::pi;

/// Fabric is two strands thick and the camera sees the upper one. Yarn gives way where strands cross, so the
/// heights drawn in stitch_paths are pressed together: the mean visible surface lies at 3.2 radii, between
/// the fabric's middle (2) and its top (4). Common practice, no source. Height of a strand's axis = r (middle
/// + pressed z).
constexpr double middle_radii = 1.65;
constexpr double pressed = 0.6;
/// A flattened strand's axis is still this far above the table, in yarn radii.
constexpr double lowest_axis_radii = 0.6;

}  // namespace

Tension drawn_tension(const Fabric& fabric, Random& random) {
    const double s = fabric.unevenness;
    return {random.normal(0.0, 0.35 * s), random.normal(0.0, 0.35 * s), random.normal(0.0, 0.8 * s),
            std::clamp(1.0 + random.normal(0.0, 0.6 * s), 0.8, 1.25),
            std::clamp(1.0 + random.normal(0.0, 2.0 * s), 0.6, 1.5)};
}

double strand_height_mm(double z, double tension_height, double yarn_radius_mm) {
    const double relief = pressed * z * (z > 0.0 ? tension_height : 1.0);
    return yarn_radius_mm * std::max(middle_radii + relief, lowest_axis_radii);
}

Colour Spool::colour_of(int row) const {
    const auto& colours = yarn_.colours;
    const int stripe = std::max(row, 0) / std::max(yarn_.stripe_rows, 1);
    return colours[static_cast<std::size_t>(stripe) % colours.size()];
}

void Spool::add(const std::vector<Vec3>& points, const Colour& colour, double thickness, Random& random) {
    Tube tube;
    tube.colour = colour;
    tube.yarn = index_;
    tube.shade = static_cast<float>(std::clamp(1.0 + random.normal(0.0, 0.03), 0.9, 1.1));
    double along = random.uniform(0.0, 100.0) * radius_mm_;
    const double slub_phase = random.uniform(0.0, 2.0 * pi);
    for (const Vec3& p : points) {
        if (!tube.nodes.empty()) along += length(p - tube.nodes.back().at);
        const double slub = 1.0 + yarn_.slub * std::sin(slub_phase + along / (6.0 * radius_mm_));
        tube.nodes.push_back({p, radius_mm_ * thickness * slub, along});
    }
    tubes_.push_back(std::move(tube));
}

void Spool::add_tail(Vec3 at, double heading_rad, double base_mm, const Colour& colour, Random& random) {
    double heading = heading_rad;
    double bend = random.uniform(-0.3, 0.3);
    StrandPath path;
    const double total = random.uniform(30.0, 90.0);
    for (double gone = 0.0; gone < total; gone += 6.0) {
        at.z = base_mm + radius_mm_;
        path.push_back(at);
        heading += bend;
        bend += random.normal(0.0, 0.12);
        at = at + Vec3{6.0 * std::cos(heading), 6.0 * std::sin(heading), 0.0};
    }
    add(smooth_curve(path, 6), colour, 1.0, random);
}

}  // namespace ridgetally::synthetic
