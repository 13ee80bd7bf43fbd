#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

struct TextureOptions {
    /// Sigma of the window of the local mean and contrast, px: wider than any stitch, narrower than a lamp's
    /// falloff.
    double window_px = 28.0;
    /// Scale of the gradients whose direction is looked at, px: about a strand of the finest yarn.
    double gradient_px = 1.2;
};

/// The fabric's texture as channels of zero mean and unit variance under the mask (CV_32FC1, 0 outside):
/// brightness after local normalisation, and the two components cos 2a and sin 2a of the gradient's double
/// angle (J. Bigun and G. Granlund, ICCV 1987) weighted by the square root of its energy. The two legs of a V
/// are equally bright but slant to opposite sides, so the double angle repeats once a stitch where brightness
/// repeats twice. `mask` is CV_8UC1 of the same size with at least one pixel set, else std::invalid_argument.
[[nodiscard]] std::vector<cv::Mat> texture_channels(const cv::Mat& grey, const cv::Mat& mask,
                                                    const TextureOptions& options);

}  // namespace ridgetally
