#pragma once

#include <opencv2/core.hpp>

namespace ridgetally::test {

/// A flat drawing of V-shaped stitches: two strokes of opposite slant a stitch, one V a row.
struct DrawnFabric {
    cv::Size size{600, 500};
    double stitch_px = 24.0;
    double row_px = 22.0;
    double turn_rad = 0.0;       ///< rows run along this direction, clockwise
    double shift_per_row = 0.0;  ///< of each row against the one above, in stitches
    int faces = 1;               ///< 2: every second row shows bars instead of Vs, as turned work does
    double scatter = 0.0;        ///< of stitch positions, in stitches
    double noise_grey = 0.0;
    unsigned long long seed = 1;
};

/// White noise about a mid grey, CV_32FC1.
[[nodiscard]] cv::Mat noise_picture(cv::Size size, double std_grey, unsigned long long seed);

/// CV_32FC1, 0 to 255.
[[nodiscard]] cv::Mat draw(const DrawnFabric& fabric);

}  // namespace ridgetally::test
