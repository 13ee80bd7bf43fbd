#pragma once

#include <array>
#include <opencv2/core.hpp>

#include "disc/strip.h"
#include "recogniser/recogniser.h"

namespace ridgetally {

/// What the recogniser says of a strip, at half its resolution.
struct StripFields {
    cv::Mat stitch;        ///< CV_32FC2, phase of the stitches along the round, short where unsure
    cv::Mat row;           ///< CV_32FC2, phase of the rounds, growing outwards
    cv::Mat fabric;        ///< CV_32FC1, probability
    double rim_row = 0.0;  ///< of the maps
    /// Mean probabilities, as KindProbabilities::family; of a whole strip only.
    std::array<double, recognised_family_count> family{};

    /// Mean length of the vectors within the disc, down to `depth` map rows: how sure the recogniser is.
    [[nodiscard]] double sureness(double depth) const;
};

/// Runs the recogniser over overlapping parts of a whole strip, all the way round.
[[nodiscard]] StripFields read_strip(const Recogniser& recogniser, const RoundStrip& strip);

/// The same for a piece of `columns` columns (a multiple of 16) from `first` on, its ends left in.
[[nodiscard]] StripFields read_strip_piece(const Recogniser& recogniser, const RoundStrip& strip, int first,
                                           int columns);

}  // namespace ridgetally
