#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// The plane wave that a phase field comes closest to.
struct Wave {
    cv::Point2d frequency;       ///< cycles per sample of the field
    double length = 0.0;         ///< mean length of the vectors where the picture was seen, 0 to about 1
    double concentration = 0.0;  ///< part of the spectrum's energy near the peak, 0 to 1
};

/// Peak of the windowed spectrum of `field` (CV_32FC2) under `weight` (CV_32FC1). One-sided: a field turning
/// the other way has its peak at the opposite frequency, and harmonics do not occur.
[[nodiscard]] Wave strongest_wave(const cv::Mat& field, const cv::Mat& weight);

/// Sharpens a frequency by phase differences over longer and longer lags, up to a third of the field (the
/// estimator of S. Kay, IEEE Trans. ASSP 37(12), 1989, taken lag by lag as in phase unwrapping).
[[nodiscard]] cv::Point2d refined_frequency(const cv::Mat& field, const cv::Mat& weight, cv::Point2d start);

}  // namespace ridgetally
