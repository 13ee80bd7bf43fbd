#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "core/outcome.h"
#include "recogniser/confidence.h"
#include "recogniser/group.h"
#include "recogniser/recogniser.h"
#include "recogniser/scan.h"

namespace ridgetally {

/// What is known of the rows before looking: nothing; their direction up to quarter turns (a straight side of
/// the swatch); the line they run along.
enum class RowKnowledge { none, modulo_90, modulo_180 };

struct RecogniseOptions {
    RowKnowledge rows = RowKnowledge::none;
    double row_direction_rad = 0.0;  ///< clockwise in the picture; good to 20 degrees
    /// Stitches looked for. A narrower range is quicker (one scale fewer an octave) and safer.
    double least_stitch_px = 8.0;
    double most_stitch_px = 120.0;
    /// Published height over width where the stitch is told: readings far from it are trusted less.
    std::optional<HeightToWidthPrior> told;
    /// Stitch pitches that another method offers: scales are added that show them at their best.
    std::vector<double> offered_stitch_px;
    /// Tiles of the search: the smallest that still shows eight stitches of 20 px, the size in training. 128
    /// read 56 photographs and ray-traced pictures and 100 drawn swatches the same, but was less sure of
    /// some.
    int search_side_px = 160;
    /// Side of the last tile, on which the pitch is measured: 16 stitches of 20 px. On the same pictures 240
    /// and 272 were less sure of one in thirty; larger costs its square.
    int final_side_px = 320;
    /// Readings kept besides the best one.
    int most_rivals = 6;
};

/// Phase maps of the chosen reading. Stitch n of a row has its middle where the stitch phase is 0 (modulo 2
/// pi), a row's lower edge is where the row phase is 0; the phases grow along the row and upwards, away from
/// the foot of the stitches.
struct PhaseMaps {
    cv::Mat stitch;  ///< CV_32FC2, cos and sin, short where unsure
    cv::Mat row;     ///< CV_32FC2
    cv::Mat fabric;  ///< CV_32FC1, probability; 0 outside the picture and its mask
    /// Takes a map sample (column, row) to a pixel of the given picture.
    cv::Matx23d picture_from_map;
};

struct PhaseReading {
    FabricReading best;  ///< pitches refined on the maps
    /// Chance that both pitches are within 15 % of the truth (so neither a multiple nor a fraction of it).
    double confidence = 0.0;
    ConfidenceEvidence evidence;        ///< what it comes from
    std::vector<FabricReading> rivals;  ///< other readings, best first
    Glimpse last_look;                  ///< at the best one, on the tile the maps come from
    double stitches_in_view = 0.0;      ///< across the fabric seen in the last tile
    double rows_in_view = 0.0;
    PhaseMaps maps;
};

/// Looks at fabric with the network: which period is a stitch, which a row. `picture` as in unit_grey();
/// `fabric_mask` (CV_8UC1 of the same size, 255 on fabric) may be empty. Refusal (stage "recogniser", code
/// "no-stitches") where no tile shows stitches; every other doubt is in the confidence.
[[nodiscard]] Outcome<PhaseReading> recognise(const Recogniser& recogniser, const cv::Mat& picture,
                                              const cv::Mat& fabric_mask, const RecogniseOptions& options);

}  // namespace ridgetally
