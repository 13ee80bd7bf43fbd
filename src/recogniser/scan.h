#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "recogniser/recogniser.h"
#include "recogniser/tile.h"
#include "recogniser/wave.h"

namespace ridgetally {

/// Root of stitch x row pitch, in tile pixels, that a tile shows best: the middle of what was trained.
inline constexpr double best_shown_pitch_px = 20.0;
/// Row over stitch pitch, geometric middle of 0.6 (knit) to 2.2 (dc).
inline constexpr double typical_height_over_width = 1.15;

/// What the network saw in one tile, in pixels and directions of the picture.
struct Glimpse {
    TileFrame frame;
    double stitch_pitch_px = 0.0;  ///< along the row
    double row_pitch_px = 0.0;     ///< across the rows
    double row_direction_rad =
        0.0;                    ///< of a row, clockwise, in the picture; the stitches stand upright on it
    double stitch_score = 0.0;  ///< root of mean vector length x spectral concentration, 0 to about 1
    double row_score = 0.0;
    double score = 0.0;   ///< geometric mean of both; 0 where the reading makes no sense
    double fabric = 0.0;  ///< mean probability of fabric
    KindProbabilities kinds;
};

/// Reads one tile. `fields` (where given) receives what the network said.
struct TileReading {
    Glimpse glimpse;
    PhaseFields fields;
    cv::Mat weight;  ///< CV_32FC1 at half the tile's side: what was seen and is fabric
};

[[nodiscard]] TileReading read_tile(const Recogniser& recogniser, const cv::Mat& unit_grey,
                                    const cv::Mat& mask, const TileFrame& frame, Sight sight = Sight::full);

/// The scout's glimpses of the frames, in their order; those with score 0 left out.
[[nodiscard]] std::vector<Glimpse> scan(const Recogniser& recogniser, const cv::Mat& unit_grey,
                                        const cv::Mat& mask, const std::vector<TileFrame>& frames);

}  // namespace ridgetally
