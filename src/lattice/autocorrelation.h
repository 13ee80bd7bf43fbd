#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// Autocorrelation of a texture over a masked region, at lags up to `max_lag_px` in both axes.
struct Autocorrelation {
    cv::Mat values;  ///< CV_32FC1, side 2 * max_lag_px + 1, lag (0, 0) in the middle, 1 there
    int max_lag_px = 0;

    /// Value at a fractional lag, bilinear; 0 beyond the largest lag.
    [[nodiscard]] float at(double dx_px, double dy_px) const;
};

/// Mean over the channels of the autocorrelation, each lag divided by the number of pixel pairs that the mask
/// leaves (masked normalised correlation by FFT: D. Padfield, IEEE TIP 21(5), 2012). Channels have zero mean
/// and unit variance under the mask and are 0 outside it.
[[nodiscard]] Autocorrelation autocorrelation(const std::vector<cv::Mat>& channels, const cv::Mat& mask,
                                              int max_lag_px);

}  // namespace ridgetally
