#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// Where a seed leaves open what is fabric. All masks are CV_8UC1 of one size.
struct SegmentTask {
    cv::Mat bgr;       ///< CV_8UC3, the picture
    cv::Mat likely;    ///< almost all of it fabric: colours of fabric are learned here
    cv::Mat sure;      ///< fabric, whatever its colour (striped yarn has several)
    cv::Mat possible;  ///< outside of it there is no fabric
    cv::Mat table;     ///< almost all of it not fabric: colours of the table are learned here
    cv::Mat keep_out;  ///< the ruler: none of it is fabric
};

/// Draws the border between fabric and table inside `possible`: each pixel's evidence is the log ratio of how
/// often its colour occurs in fabric and on the table, both learned from this very picture as smoothed
/// histograms; neighbours then agree by mean-field steps (P. Krahenbuehl, V. Koltun, NIPS 2011, with a
/// Gaussian neighbourhood only). Deterministic. CV_8UC1, 255 on fabric.
[[nodiscard]] cv::Mat segment_fabric(const SegmentTask& task);

}  // namespace ridgetally
