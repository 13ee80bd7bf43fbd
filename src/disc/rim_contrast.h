#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// No single pixel outvotes a run of ten others.
inline constexpr float most_evidence = 3.0F;

/// What speaks for the disc, pixel by pixel of a strip around its rim.
struct RimContrast {
    cv::Mat evidence;  ///< CV_32FC1, positive for the disc
    cv::Mat table;  ///< CV_8UC1, 255 where a pixel may be the table in the light or in a shadow; 0 everywhere
                    ///< where the disc itself has the colour of such a shadow
};

/// How much more a pixel of the strip looks like the disc than like what it lies on: the logarithm of the
/// ratio of their colour histograms, and as far as that does not tell them apart that of their histograms of
/// local contrast (yarn is busy, most tables are not). `strip_ycc` is CV_8UC3; `inside` and `outside`
/// (CV_8UC1) mark pixels taken for either. The ground is learned anew for every sector of the circle; shadows
/// on it need not be among its samples, they are worked out from them, and what is seen of it through holes
/// hardly counts.
[[nodiscard]] RimContrast rim_contrast(const cv::Mat& strip_ycc, const cv::Mat& inside,
                                       const cv::Mat& outside);

}  // namespace ridgetally
