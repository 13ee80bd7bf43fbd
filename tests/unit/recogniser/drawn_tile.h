#pragma once

#include <opencv2/core.hpp>

#include "recogniser/recogniser.h"

namespace ridgetally::test {

/// The recogniser of the source tree. Throws where it does not load.
[[nodiscard]] Recogniser shipped_recogniser();

/// sin(0.37 x) + cos(0.23 y) sin(0.11 x + 0.05 y): a picture two programs can compute alike.
[[nodiscard]] cv::Mat formula_tile(int side_px);

/// Columns of Vs 16 px wide, one over the other every 12 px: 1.2 cos(2 pi (y / 12 + 0.7 |u - 0.5|)) - cos(4
/// pi u) with u the fraction of x / 16. The recogniser takes it for knit stitches, and two programs can
/// compute it alike.
[[nodiscard]] cv::Mat chevron_tile(int side_px);

/// exp(i 2 pi (fx x + fy y)) as CV_32FC2.
[[nodiscard]] cv::Mat plane_wave(cv::Size size, cv::Point2d frequency);

/// A piece of fabric of the scene renderer, seen from straight above, and its pitches in pixels.
struct DrawnSwatch {
    cv::Mat bgr;
    cv::Mat mask;  ///< 255 well inside the fabric
    double stitch_pitch_px = 0.0;
    double row_pitch_px = 0.0;
    double row_direction_rad = 0.0;
};

enum class Drawn { sc_round, hdc_round, dc_flat, stockinette };
[[nodiscard]] DrawnSwatch drawn_swatch(Drawn what, double angle_deg);

}  // namespace ridgetally::test
