#pragma once

#include <array>
#include <vector>

#include "recogniser/scan.h"

namespace ridgetally {

/// One way to read the fabric, supported by some of the tiles.
struct FabricReading {
    double stitch_pitch_px = 0.0;
    double row_pitch_px = 0.0;
    double row_direction_rad = 0.0;  ///< clockwise in the picture, modulo 2 pi: stitches stand upright on it
    double score = 0.0;              ///< mean of the three best tiles that see it; a missing one counts as 0
    double stitch_score = 0.0;       ///< of the best tile, for the stitches alone
    double row_score = 0.0;          ///< for the rows alone: low where rows are out of focus
    int tiles = 0;                   ///< that agree on it
    std::array<double, recognised_family_count> family{};  ///< probabilities, the last for "something else"
    double round = 0.0;                                    ///< probability of work in rounds
    TileFrame frame;                                       ///< of the best tile
};

/// Height over width of a stitch, published or told.
struct HeightToWidthPrior {
    double mean = 1.0;
    double relative_std = 0.15;  ///< of another maker's piece, one standard deviation
};

/// Family probabilities `seen` once the height over width is weighed against that of each family (in the
/// order of StitchFamily); "something else" may have any proportion.
[[nodiscard]] std::array<double, recognised_family_count> family_given_height(
    const std::array<double, recognised_family_count>& seen, double height_over_width,
    const std::array<HeightToWidthPrior, recognised_family_count - 1>& priors);

/// Gathers glimpses that agree on both pitches and on the line of the rows; best score first.
[[nodiscard]] std::vector<FabricReading> grouped(std::vector<Glimpse> glimpses);

/// Whether two readings have the same pitches, within `ratio` of one another.
[[nodiscard]] bool same_pitches(double stitch_a, double row_a, double stitch_b, double row_b, double ratio);

/// Whether rows in these directions run along the same line, either way, within 20 degrees.
[[nodiscard]] bool same_line(double direction_a_rad, double direction_b_rad);

}  // namespace ridgetally
