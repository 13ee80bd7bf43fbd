#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// How fabric and ruler lie to each other, as far as their outlines tell.
enum class RulerContact {
    apart,   ///< table shows between them
    near,    ///< they touch along less than a side: most likely the ruler lies close by, at a slant
    beside,  ///< they touch along a side: the fabric was pushed against the ruler, or the ruler laid on it
    across,  ///< fabric shows on both sides of the ruler: it lies on the fabric
};

/// Compares the fabric's mask and further pieces (`others`) with the ruler's; all CV_8UC1 of one size. Pieces
/// that belong to the same fabric, cut off by the ruler only, are taken out of `others`.
struct ContactFinding {
    RulerContact contact = RulerContact::apart;
    std::vector<cv::Mat> others;
};
[[nodiscard]] ContactFinding ruler_contact(const cv::Mat& fabric, const std::vector<cv::Mat>& others,
                                           const cv::Mat& ruler);

}  // namespace ridgetally
