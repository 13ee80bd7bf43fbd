#pragma once

#include <opencv2/core.hpp>

#include "core/outcome.h"
#include "image/pyramid.h"

namespace ridgetally {

/// How well a photo is lit and focused, whatever it shows.
struct PhotoQuality {
    double brightest_level = 0.0;  ///< luma 0-255 that 1 % of the picture lies above
    double burnt_share = 0.0;      ///< share of the picture at luma 250 and above, 0-1
    double edge_blur = 0.0;  ///< Gaussian blur of the sharpest edges: its standard deviation over the longer
                             ///< side of the picture; values under 0.002 are "sharp" and not told apart
};

/// Measures light and blur of a CV_8UC1 picture on a copy of some 500 px on the longer side, where camera
/// noise and JPEG blocks no longer count as sharpness. Blur comes from the ratio of gradients before and
/// after a known second blur (S. Zhuo and T. Sim, Pattern Recognition 44(9), 2011, section 3), over the
/// strongest edges. Throws std::invalid_argument for an empty picture or another type.
[[nodiscard]] PhotoQuality photo_quality(const cv::Mat& grey);

/// The limits of check_quality. Each lies where little of a fabric's texture is left (its correlation with
/// the well-lit, sharp texture, from the sweeps in tests/unit/image/quality_test.cpp); what merely makes
/// reading hard is for the stages that read to refuse.
struct QualityLimits {
    /// Correlation 0.69 at noise of 2 levels and 0.42 at 4, which a phone in the dark exceeds. Photos that
    /// can be measured, real and rendered, have 110 to 255.
    double min_brightest_level = 20.0;
    /// Correlation under 0.3, the ruler's face burnt too. Photos on a white ground have up to 0.76.
    double max_burnt_share = 0.97;
    /// Correlation 0.71 at noise of 2 levels, 0.36 at 6; a frame of 250 mm is blurred by 1.5 mm then, rows of
    /// 4 mm keep exp(-2 (pi 1.5 / 4)^2) = 6 % of their contrast, millimetre marks nothing. Sharp photos read
    /// under 0.002.
    double max_edge_blur = 0.006;
};

/// The photo's quality, or why nobody could measure on it. Refusals have stage "photo": too-dark, too-bright,
/// too-blurred (also where the picture is one even surface).
[[nodiscard]] Outcome<PhotoQuality> check_quality(const cv::Mat& grey, const QualityLimits& limits = {});

/// The same on a halving of a photo that has pixels enough.
[[nodiscard]] Outcome<PhotoQuality> check_quality(const GreyPyramid& photo, const QualityLimits& limits = {});

}  // namespace ridgetally
