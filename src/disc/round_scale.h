#pragma once

#include <opencv2/core.hpp>
#include <optional>

#include "disc/disc_outline.h"
#include "recogniser/recogniser.h"

namespace ridgetally {

/// Sizes of stitches near the rim, good to 15 %.
struct RoundScale {
    double stitch_mm = 0.0;
    double row_mm = 0.0;
    double sureness = 0.0;  ///< of the recogniser, 0 to 1
};

struct RoundScaleOptions {
    /// Finest and coarsest stitch looked for, as for swatches.
    double least_stitch_mm = 2.4;
    double most_stitch_mm = 24.0;
    std::optional<double> height_over_width;  ///< of the stitch, where it is known
};

/// Looks at pieces of the rim at several scales for the one that shows stitches best. None where no scale
/// shows any.
[[nodiscard]] std::optional<RoundScale> find_round_scale(const Recogniser& recogniser,
                                                         const GreyPyramid& photo, const DiscOutline& outline,
                                                         const RoundScaleOptions& options);

/// Pitch in rows of a phase map whose phase falls with the row, over rows `from` to `to`; 0 where there is
/// none.
[[nodiscard]] double pitch_down(const cv::Mat& field, double from, double to);
/// Pitch in columns of one whose phase grows with the column.
[[nodiscard]] double pitch_along(const cv::Mat& field, double from, double to);

}  // namespace ridgetally
