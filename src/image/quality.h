#pragma once

#include <opencv2/core.hpp>

#include "core/outcome.h"

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

/// The limits of check_quality. Each is far on the hopeless side: what merely makes reading hard is for the
/// stages that read to refuse. tests/unit/image/quality_test.cpp holds the sweeps.
struct QualityLimits {
    /// Under this no part is lit: at 25, the texture of a fabric (contrast about a tenth of its brightness)
    /// is 2 levels, what noise and JPEG leave over. Real and rendered photos that can be measured: 110 to
    /// 255.
    double min_brightest_level = 25.0;
    /// A swatch that can be measured and the ruler's marks cover more than this leaves over.
    double max_burnt_share = 0.97;
    /// A frame of 250 mm is blurred by 1.25 mm then: rows of 4 mm keep a contrast of exp(-2 (pi 1.25 / 4)^2),
    /// 15 %, millimetre marks none. Sharp photos measure under 0.002.
    double max_edge_blur = 0.005;
};

/// The photo's quality, or why nobody could measure on it. Refusals have stage "photo": too-dark, too-bright,
/// too-blurred (also where the picture is one even surface).
[[nodiscard]] Outcome<PhotoQuality> check_quality(const cv::Mat& grey, const QualityLimits& limits = {});

}  // namespace ridgetally
