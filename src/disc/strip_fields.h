#pragma once

#include <opencv2/core.hpp>

#include "disc/strip.h"
#include "recogniser/recogniser.h"

namespace ridgetally {

/// What the recogniser says of a strip, at half its resolution, all the way round.
struct StripFields {
    cv::Mat stitch;              ///< CV_32FC2, phase of the stitches along the round
    cv::Mat row;                 ///< CV_32FC2, phase of the rounds, growing outwards
    cv::Mat fabric;              ///< CV_32FC1, probability
    double stitch_length = 0.0;  ///< mean length of the vectors within the disc: how sure it is
    double row_length = 0.0;
};

/// Runs the recogniser over overlapping squares of the strip.
[[nodiscard]] StripFields read_strip(const Recogniser& recogniser, const RoundStrip& strip);

}  // namespace ridgetally
