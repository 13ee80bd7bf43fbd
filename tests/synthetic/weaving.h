#pragma once

#include "core/random.h"
#include "synthetic/tubes.h"

namespace ridgetally::synthetic {

/// How one stitch differs from the ideal one.
struct Tension {
    double du = 0.0, dv = 0.0, turn = 0.0, thickness = 1.0, height = 1.0;
};

[[nodiscard]] Tension drawn_tension(const Fabric& fabric, Random& random);

/// Height of a strand's centre line above what the fabric lies on, for a height `z` of stitch_paths in yarn
/// radii: yarn gives way where strands cross.
[[nodiscard]] double strand_height_mm(double z, double tension_height, double yarn_radius_mm);

/// Turns points into tubes of one yarn, with its slubs and slight changes of shade.
class Spool {
  public:
    Spool(const Yarn& yarn, int yarn_index, double radius_mm)
        : yarn_(yarn), index_(yarn_index), radius_mm_(radius_mm) {}

    /// Colour of a row, in stripes.
    [[nodiscard]] Colour colour_of(int row) const;
    void add(const std::vector<Vec3>& points, const Colour& colour, double thickness, Random& random);
    /// A loose end that wanders over the table from `at`.
    void add_tail(Vec3 at, double heading_rad, double base_mm, const Colour& colour, Random& random);
    [[nodiscard]] double radius_mm() const { return radius_mm_; }
    [[nodiscard]] std::vector<Tube> take() { return std::move(tubes_); }

  private:
    const Yarn& yarn_;
    int index_;
    double radius_mm_;
    std::vector<Tube> tubes_;
};

}  // namespace ridgetally::synthetic
