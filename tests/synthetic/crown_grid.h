#pragma once

#include <vector>

#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// Where every stitch of a crown lies.
class CrownGrid {
  public:
    /// Throws std::invalid_argument for a fabric that is no crown, or one without rounds.
    explicit CrownGrid(const Fabric& fabric);

    /// Point over the table at `across` (0..1 over the stitch) and `up` (0 at its foot, 1 at its top) of
    /// stitch `stitch` of round `round`; z is the lift of a wavy or cupped rim.
    [[nodiscard]] Vec3 at(int round, int stitch, double across, double up) const;
    /// Radius of the rim's boundary line, mm, without its waves.
    [[nodiscard]] double radius_mm() const { return radii_.back(); }
    /// Point of the start ring's centre line.
    [[nodiscard]] Vec3 ring_at(double turns) const;

  private:
    /// Where the middles and edges of a round's stitches stand, in turns.
    struct Round {
        std::vector<double> edges;  ///< one more than stitches
        std::vector<double> feet;   ///< middle of each stitch's foot
        double foot_width = 0.0;    ///< relative to the stitch's own width
    };
    [[nodiscard]] Vec3 placed(double turns, double radius_mm) const;

    const Fabric fabric_;
    const Crown crown_;
    std::vector<double> radii_;  ///< one more than rounds
    std::vector<Round> rounds_;
    double wave_phase_ = 0.0;
    int waves_ = 5;
};

}  // namespace ridgetally::synthetic
