#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

struct NormaliseOptions {
    /// Standard deviation of the Gaussian window, px. One to two periods of what shall stay; anything slower
    /// (shading, colour bands) goes.
    double sigma_px = 16.0;
    /// Added to the local standard deviation in quadrature, grey levels: parts flatter than a camera's noise
    /// (1-3 levels of 8 bits on a phone, common practice, no source) are not blown up to full contrast.
    double floor_std = 2.0;
};

/// Local normalisation: (grey - local mean) / local standard deviation, CV_32FC1, of a CV_8UC1 or CV_32FC1
/// picture. With a mask (CV_8UC1 of the same size, not 0 = counts) only counted pixels enter mean and
/// deviation and the rest of the result is 0; the frame's border is treated as the edge of a mask (normalised
/// convolution, H. Knutsson and C.-F. Westin, CVPR 1993). Windows of 4 px and above are computed on block
/// sums and interpolated. Throws std::invalid_argument for other types or a sigma that is not positive.
[[nodiscard]] cv::Mat locally_normalised(const cv::Mat& grey, const NormaliseOptions& options = {},
                                         const cv::Mat& mask = {});

}  // namespace ridgetally
