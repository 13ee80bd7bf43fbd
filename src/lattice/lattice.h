#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/geometry.h"
#include "core/measured.h"
#include "core/stitch.h"

namespace ridgetally {

/// Whether the stitch was told on the command line or recognised in the picture.
enum class StitchSource { told, recognised };

struct StitchReading {
    std::optional<StitchFamily> family;  ///< none where nothing was told and nothing recognised
    std::optional<Worked> worked;
    StitchSource source = StitchSource::told;
    double confidence = 1.0;  ///< probability that the family is right; 1 where told
    /// Probability that the stitch is right whatever loop it is worked through; 1 where told.
    double any_loop_confidence = 1.0;
};

/// Another way to read the same fabric (x1/2, x2, ...), kept to the end with its score.
struct RivalReading {
    double stitch_pitch_px = 0.0;
    double row_pitch_px = 0.0;
    double score = 0.0;  ///< relative to the reading that was chosen, which has 1
};

/// A curve along one boundary between rows, or between stitches of a row; `index` counts from the first one
/// seen.
struct Ridge {
    int index = 0;
    std::vector<RectifiedPoint> points;
};

/// What one part of the swatch (a half, a quadrant) gives by itself.
struct PartReading {
    std::string name;  ///< "left half", ...
    double stitch_pitch_px = 0.0;
    double row_pitch_px = 0.0;
};

/// The pitch of one block of the fabric: along the rows for stitches, across them for rows.
struct BlockPitch {
    enum class Kind { stitch, row } kind = Kind::stitch;
    RectifiedPoint at;  ///< middle of the block
    double pitch_px = 0.0;
    double relative_std = 0.0;  ///< scatter of the blocks of this kind about their median
};

/// How strongly the texture repeats with the chosen periods, for the confidence and the trace.
struct LatticeScores {
    double stitch_comb = 0.0;       ///< about 0 for noise, up to 1
    double row_comb = 0.0;          ///< the same across the rows
    double line = 0.0;              ///< agreement along minus across the rows
    double log_prior = 0.0;         ///< height over width against published gauges, 0 at their mean
    double total = 0.0;             ///< all of these together, as readings are ranked by
    double stitch_margin = 0.0;     ///< total less that of the best reading with another stitch pitch
    double row_margin = 0.0;        ///< and of the best one with this stitch pitch and other rows
    double stitch_coherence = 0.0;  ///< agreement of phases along the rows, 0 to 1
    double row_coherence = 0.0;     ///< and across them
};

/// The stitches and rows found in the rectified picture.
struct Lattice {
    double px_per_mm = 0.0;  ///< of the rectified picture, by construction
    PhotoFromRectified photo_from_rectified;
    double row_direction_deg = 0.0;  ///< of a row in the rectified picture, clockwise positive, modulo 180
    Measured stitch_pitch_px;
    std::optional<Measured>
        row_pitch_px;  ///< perpendicular distance of rows; none where rows are not resolved
    /// The row pitch is the recogniser's: the plain search hardly sees rows, and none are traced.
    bool rows_by_recogniser = false;
    std::vector<Ridge> row_ridges;     ///< across the measured area
    std::vector<Ridge> stitch_ridges;  ///< along the counted row
    StitchReading stitch;
    std::vector<RivalReading> rivals;
    std::vector<PartReading> parts;
    std::vector<BlockPitch> blocks;  ///< of the picture's visible periods, not of what they are made of
    LatticeScores scores;
};

}  // namespace ridgetally
