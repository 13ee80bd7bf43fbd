#include "synthetic/fabric_tubes.h"

#include "core/units.h"
#include "synthetic/crown_tubes.h"
#include "synthetic/stitch_paths.h"
#include "synthetic/weaving.h"

namespace ridgetally::synthetic {
namespace {

class Weaver {
  public:
    Weaver(const Fabric& fabric, int yarn, double base_mm)
        : fabric_(fabric),
          grid_(fabric),
          random_(fabric.seed * 7 + 3),
          base_mm_(base_mm),
          spool_(fabric.yarn, yarn, fabric.yarn_radius_ratio * fabric.stitch_pitch_mm) {}

    std::vector<Tube> work() {
        foundation();
        for (int row = 0; row < fabric_.rows; ++row) {
            for (int i = 0; i < fabric_.stitches; ++i) stitch(i, row);
            if (fabric_.worked == Worked::flat) turning_loops(row);
        }
        if (fabric_.tail) loose_end();
        return spool_.take();
    }

  private:
    [[nodiscard]] Face face_of(int row) const {
        return fabric_.family != StitchFamily::stockinette && fabric_.worked == Worked::flat && row % 2 == 1
                   ? Face::back
                   : Face::front;
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
            at.z += base_mm_ + strand_height_mm(p.z, tension.height, spool_.radius_mm());
            points.push_back(at);
        }
        spool_.add(points, spool_.colour_of(row), tension.thickness, random_);
    }

    void stitch(int i, int row) {
        const Tension tension = drawn_tension(fabric_, random_);
        const LoopRidge ridge = free_loops(fabric_.family, fabric_.worked, face_of(row));
        for (const Strand& one : stitch_strands(fabric_.family, face_of(row), ridge, fabric_.shape)) {
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
        const double heading =
            (fabric_.angle_deg + 180.0 + random_.uniform(-50.0, 50.0)) / degrees_per_radian;
        spool_.add_tail(grid_.at(0.0, 0.1), heading, base_mm_, spool_.colour_of(0), random_);
    }

    const Fabric& fabric_;
    FabricGrid grid_;
    Random random_;
    double base_mm_;
    Spool spool_;
};

}  // namespace

std::vector<Tube> fabric_tubes(const Fabric& fabric, int yarn_index, double base_mm) {
    if (fabric.crown) return crown_tubes(fabric, yarn_index, base_mm);
    return Weaver(fabric, yarn_index, base_mm).work();
}

}  // namespace ridgetally::synthetic
