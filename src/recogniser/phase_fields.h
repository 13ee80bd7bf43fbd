#pragma once

#include <array>
#include <opencv2/core.hpp>

namespace ridgetally {

/// Families the network tells apart: those of StitchFamily in their order, then "something else" (rib,
/// garter, textured stitches).
inline constexpr int recognised_family_count = 9;

/// What the network says of one tile. The maps are half the tile's size: map sample (i, j) stands for tile
/// pixel (2 i + 0.5, 2 j + 0.5).
struct PhaseFields {
    cv::Mat stitch;  ///< CV_32FC2: cos and sin of 2 pi x stitch coordinate; short where the network is unsure
    cv::Mat row;     ///< CV_32FC2: the same of the row coordinate, counted upwards in the tile
    cv::Mat fabric;  ///< CV_32FC1: probability of fabric, 0 to 1
    cv::Mat kinds;  ///< CV_32FC(11) at an eighth of the tile: logits of nine families, then of flat and round
};

/// Probabilities of the families and of work in rounds, from the logits averaged over the fabric.
struct KindProbabilities {
    std::array<double, recognised_family_count> family{};
    double round = 0.0;
};

/// Mean logits under `weight` (the size of the half-resolution maps), divided by `temperature`, then the
/// softmax.
[[nodiscard]] KindProbabilities kinds_of(const cv::Mat& kinds, const cv::Mat& weight,
                                         double temperature = 1.0);

}  // namespace ridgetally
