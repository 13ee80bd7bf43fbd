#pragma once

#include <vector>

#include "core/random.h"
#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// Boundaries between `count` neighbours, from 0 on, whose widths scatter about `pitch` by the relative
/// standard deviation `scatter`; none is off by more than 0.4 of the pitch.
[[nodiscard]] std::vector<double> scattered_boundaries(int count, double pitch, double scatter,
                                                       Random& random);

/// What is true of a piece of fabric, exactly, by construction.
struct FabricTruth {
    double stitch_pitch_mm =
        0.0;                    ///< mean over all rows of the distance of neighbouring stitches along the row
    double row_pitch_mm = 0.0;  ///< mean over all columns of the distance of neighbouring rows across them
    int stitches = 0;
    int rows = 0;
    double width_mm = 0.0;
    double height_mm = 0.0;

    [[nodiscard]] double stitches_per_10cm() const { return 100.0 / stitch_pitch_mm; }
    [[nodiscard]] double rows_per_10cm() const { return 100.0 / row_pitch_mm; }
};

/// Where every stitch of a piece lies: takes (stitch, row) co-ordinates to the table.
class FabricGrid {
  public:
    explicit FabricGrid(const Fabric& fabric);

    /// Point of the table (z = 0) at `stitch` (0..stitches) along row co-ordinate `row` (0..rows, upwards).
    [[nodiscard]] Vec3 at(double stitch, double row) const;
    [[nodiscard]] FabricTruth truth() const;
    /// Sideways shift of a round, in stitches, within [-0.5, 0.5).
    [[nodiscard]] double shift_of(int row) const;

  private:
    [[nodiscard]] Vec3 flat(double stitch, double row) const;

    Fabric fabric_;
    std::vector<double> columns_;  ///< mm, one more than stitches
    std::vector<double> rows_;     ///< mm, one more than rows
    double phase_x_ = 0.0;
    double phase_y_ = 0.0;
    double waves_x_ = 1.0;
    double waves_y_ = 1.0;
};

}  // namespace ridgetally::synthetic
