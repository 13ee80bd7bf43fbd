#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// How fabric and ruler lie to each other, as far as their outlines tell.
enum class RulerContact {
    apart,   ///< table shows between them
    near,    ///< they touch along less than a side: most likely the ruler lies close by, at a slant
    beside,  ///< they touch along a side: the fabric was pushed against the ruler, or the ruler laid on it
    across,  ///< fabric shows on both sides of the ruler: it lies on the fabric
};

/// Whether two pieces lie on both sides of the ruler and touch it, the first along a side: one fabric that
/// the ruler lies on. Masks are CV_8UC1 of one size.
[[nodiscard]] bool cut_by_ruler(const cv::Mat& a, const cv::Mat& b, const cv::Mat& ruler);

/// How a piece that the ruler does not cut lies to it. Masks are CV_8UC1 of one size.
[[nodiscard]] RulerContact ruler_contact(const cv::Mat& fabric, const cv::Mat& ruler);

}  // namespace ridgetally
