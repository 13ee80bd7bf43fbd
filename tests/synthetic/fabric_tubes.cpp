#include "synthetic/fabric_tubes.h"

#include <algorithm>
#include <cmath>

#include "core/units.h"
#include "synthetic/stitch_paths.h"

namespace ridgetally::synthetic {
namespace {

constexpr double pi = 3.14159265358979323846;

/// Yarn gives way where strands cross: heights drawn in stitch_paths, in yarn radii, are pressed together so
/// that the surface lies about half a stitch width above the table (common practice, no source: a swatch of
/// such yarn is little more than one yarn thick where it is pressed, under two where it is not). Height = r
/// (middle + pressed z).
constexpr double middle_radii = 1.1;
constexpr double pressed = 0.6;
/// A flattened strand's axis is still this far above the table, in yarn radii.
constexpr double lowest_axis_radii = 0.35;

/// How one stitch differs from the ideal one.
struct Tension {
    double du = 0.0, dv = 0.0, turn = 0.0, thickness = 1.0, height = 1.0;
};

Tension drawn_tension(const Fabric& fabric, Random& random) {
    const double s = fabric.unevenness;
    return {random.normal(0.0, 0.35 * s), random.normal(0.0, 0.35 * s), random.normal(0.0, 0.8 * s),
            std::clamp(1.0 + random.normal(0.0, 0.6 * s), 0.8, 1.25),
            std::clamp(1.0 + random.normal(0.0, 2.0 * s), 0.6, 1.5)};
}

class Weaver {
  public:
    Weaver(const Fabric& fabric, int yarn, double base_mm)
        : fabric_(fabric),
          grid_(fabric),
          random_(fabric.seed * 7 + 3),
          yarn_(yarn),
          base_mm_(base_mm),
          radius_mm_(fabric.yarn_radius_ratio * fabric.stitch_pitch_mm) {}

    std::vector<Tube> work() {
        foundation();
        for (int row = 0; row < fabric_.rows; ++row) {
            for (int i = 0; i < fabric_.stitches; ++i) stitch(i, row);
            if (fabric_.worked == Worked::flat) turning_loops(row);
        }
        if (fabric_.tail) loose_end();
        return std::move(tubes_);
    }

  private:
    [[nodiscard]] Face face_of(int row) const {
        return fabric_.family != StitchFamily::stockinette && fabric_.worked == Worked::flat && row % 2 == 1
                   ? Face::back
                   : Face::front;
    }

    [[nodiscard]] LoopRidge ridge_of(int row) const {
        return fabric_.worked == Worked::round || row % 2 == 0 ? LoopRidge::facing : LoopRidge::none;
    }

    [[nodiscard]] Colour colour_of(int row) const {
        const auto& colours = fabric_.yarn.colours;
        const int stripe = std::max(row, 0) / std::max(fabric_.yarn.stripe_rows, 1);
        return colours[static_cast<std::size_t>(stripe) % colours.size()];
    }

    void add(const std::vector<Vec3>& points, const Colour& colour, double thickness) {
        Tube tube;
        tube.colour = colour;
        tube.yarn = yarn_;
        tube.shade = static_cast<float>(std::clamp(1.0 + random_.normal(0.0, 0.03), 0.9, 1.1));
        double along = random_.uniform(0.0, 100.0) * radius_mm_;
        const double slub_phase = random_.uniform(0.0, 2.0 * pi);
        for (const Vec3& p : points) {
            if (!tube.nodes.empty()) along += length(p - tube.nodes.back().at);
            const double slub = 1.0 + fabric_.yarn.slub * std::sin(slub_phase + along / (6.0 * radius_mm_));
            tube.nodes.push_back({p, radius_mm_ * thickness * slub, along});
        }
        tubes_.push_back(std::move(tube));
    }

    /// Takes a strand from stitch co-ordinates to the scene and adds it.
    void strand(const StrandPath& path, double stitch, int row, const Tension& tension) {
        const double mirror = face_of(row) == Face::back ? -1.0 : 1.0;
        std::vector<Vec3> points;
        for (const Vec3& p : smooth_curve(path, 4)) {
            const double u =
                stitch + p.x + mirror * fabric_.lean * (p.y - 0.5) + tension.du - tension.turn * (p.y - 0.5);
            const double v = row + p.y + tension.dv + tension.turn * (p.x - 0.5);
            Vec3 at = grid_.at(u, v);
            const double relief = pressed * p.z * (p.z > 0.0 ? tension.height : 1.0);
            at.z += base_mm_ + radius_mm_ * std::max(middle_radii + relief, lowest_axis_radii);
            points.push_back(at);
        }
        add(points, colour_of(row), tension.thickness);
    }

    void stitch(int i, int row) {
        const Tension tension = drawn_tension(fabric_, random_);
        for (const Strand& one : stitch_strands(fabric_.family, face_of(row), ridge_of(row), fabric_.shape)) {
            StrandPath path = one.path;
            for (Vec3& p : path) {
                p.x += random_.normal(0.0, 0.15 * fabric_.unevenness);
                p.y += random_.normal(0.0, 0.15 * fabric_.unevenness);
            }
            strand(path, i + grid_.shift_of(row), row, tension);
        }
    }

    void foundation() {
        for (int i = 0; i < fabric_.stitches; ++i) {
            const Tension tension = drawn_tension(fabric_, random_);
            strand({{-0.2, 0.90, -0.5}, {0.2, 0.96, 0.4}, {0.55, 1.04, 0.4}, {1.15, 0.92, -0.6}}, i, -1,
                   tension);
            strand({{-0.1, 0.75, -1.0}, {0.4, 0.80, -0.2}, {0.8, 0.78, -0.2}, {1.2, 0.74, -1.0}}, i, -1,
                   tension);
        }
    }

    /// Bumps of the turning chain at both ends of a row.
    void turning_loops(int row) {
        const double out = random_.uniform(0.05, 0.35);
        const StrandPath right{
            {-0.15, 0.0, -0.6}, {0.1 + out, 0.30, 0.1}, {0.1 + out, 0.70, 0.3}, {-0.15, 1.0, -0.4}};
        StrandPath left = right;
        for (Vec3& p : left) p.x = -p.x;
        strand(right, fabric_.stitches, row, {});
        strand(left, 0.0, row, {});
    }

    /// A tail of yarn that wanders over the table from the first corner.
    void loose_end() {
        Vec3 at = grid_.at(0.0, 0.1);
        double heading = (fabric_.angle_deg + 180.0 + random_.uniform(-50.0, 50.0)) / degrees_per_radian;
        double bend = random_.uniform(-0.3, 0.3);
        StrandPath path;
        const double total = random_.uniform(30.0, 90.0);
        for (double gone = 0.0; gone < total; gone += 6.0) {
            at.z = base_mm_ + radius_mm_;
            path.push_back(at);
            heading += bend;
            bend += random_.normal(0.0, 0.12);
            at = at + Vec3{6.0 * std::cos(heading), 6.0 * std::sin(heading), 0.0};
        }
        add(smooth_curve(path, 6), colour_of(0), 1.0);
    }

    const Fabric& fabric_;
    FabricGrid grid_;
    Random random_;
    int yarn_;
    double base_mm_;
    double radius_mm_;
    std::vector<Tube> tubes_;
};

}  // namespace

std::vector<Tube> fabric_tubes(const Fabric& fabric, int yarn_index, double base_mm) {
    return Weaver(fabric, yarn_index, base_mm).work();
}

}  // namespace ridgetally::synthetic
