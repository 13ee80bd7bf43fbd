#include "synthetic/fabric_grid.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/units.h"

namespace ridgetally::synthetic {
namespace {

using std::numbers::pi;

/// Linear between the boundaries, and straight on past both ends.
double interpolated(const std::vector<double>& at, double where) {
    const auto last = static_cast<double>(at.size() - 2);
    const auto i = static_cast<std::size_t>(std::clamp(std::floor(where), 0.0, last));
    return at[i] + (where - static_cast<double>(i)) * (at[i + 1] - at[i]);
}

}  // namespace

std::vector<double> scattered_boundaries(int count, double pitch, double scatter, Random& random) {
    std::vector<double> out{0.0};
    for (int i = 0; i < count; ++i)
        out.push_back(out.back() + pitch * std::clamp(1.0 + random.normal(0.0, scatter), 0.6, 1.4));
    return out;
}

FabricGrid::FabricGrid(const Fabric& fabric) : fabric_(fabric) {
    Random random(fabric.seed * 2 + 1);
    // Neighbours in one column pull each other straight: the columns scatter less than single stitches do.
    columns_ = scattered_boundaries(fabric.stitches, fabric.stitch_pitch_mm, 0.5 * fabric.unevenness, random);
    rows_ = scattered_boundaries(fabric.rows, fabric.row_pitch_mm, 0.7 * fabric.unevenness, random);
    phase_x_ = random.uniform(0.0, 2.0 * pi);
    phase_y_ = random.uniform(0.0, 2.0 * pi);
    waves_x_ = random.uniform(0.5, 1.4);
    waves_y_ = random.uniform(0.5, 1.4);
}

Vec3 FabricGrid::flat(double stitch, double row) const {
    const double width = columns_.back(), height = rows_.back();
    const double u = interpolated(columns_, stitch) - width / 2.0;
    const double v = interpolated(rows_, row) - height / 2.0;
    const double bend_x = fabric_.warp_mm * std::sin(2.0 * pi * waves_x_ * v / height + phase_x_);
    const double bend_y = fabric_.warp_mm * std::sin(2.0 * pi * waves_y_ * u / width + phase_y_);
    return {u * (1.0 + fabric_.taper * v / height) + bend_x, -(v + bend_y), 0.0};
}

Vec3 FabricGrid::at(double stitch, double row) const {
    const Vec3 p = flat(stitch, row);
    const double a = fabric_.angle_deg / degrees_per_radian;
    const double edge_u = std::abs(2.0 * stitch / fabric_.stitches - 1.0);
    const double edge_v = std::abs(2.0 * row / fabric_.rows - 1.0);
    const double edge = std::clamp(std::max(edge_u, edge_v), 0.0, 1.0);
    const double lift = fabric_.curl_mm * std::pow(edge, 6.0);
    return {fabric_.centre_x_mm + std::cos(a) * p.x - std::sin(a) * p.y,
            fabric_.centre_y_mm + std::sin(a) * p.x + std::cos(a) * p.y, lift};
}

FabricTruth FabricGrid::truth() const {
    FabricTruth t;
    t.stitches = fabric_.stitches;
    t.rows = fabric_.rows;
    for (int j = 0; j < fabric_.rows; ++j)
        t.width_mm += (flat(fabric_.stitches, j + 0.5).x - flat(0, j + 0.5).x) / fabric_.rows;
    for (int i = 0; i < fabric_.stitches; ++i)
        t.height_mm += (flat(i + 0.5, 0).y - flat(i + 0.5, fabric_.rows).y) / fabric_.stitches;
    t.stitch_pitch_mm = t.width_mm / fabric_.stitches;
    t.row_pitch_mm = t.height_mm / fabric_.rows;
    return t;
}

double FabricGrid::shift_of(int row) const {
    const double shift = fabric_.round_shift * row;
    return shift - std::floor(shift + 0.5);
}

}  // namespace ridgetally::synthetic
