#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// Whether two pieces on both sides of the ruler are one fabric: they touch it (ruler_contact.h) and have the
/// same colours in `bgr` (CV_8UC3), light that falls off allowed for. Masks are CV_8UC1 of its size.
[[nodiscard]] bool one_fabric(const cv::Mat& bgr, const cv::Mat& a, const cv::Mat& b, const cv::Mat& ruler);

/// The largest piece with those that only the ruler cuts off from it, and the other pieces.
struct Sides {
    cv::Mat all;
    std::vector<cv::Mat> others;
};

/// `pieces`, of which there is one at least, largest first. What reaches the frame on both sides may as well
/// be a grainy table: it is not joined.
[[nodiscard]] Sides sides_of(const cv::Mat& bgr, const std::vector<cv::Mat>& pieces, const cv::Mat& ruler);

}  // namespace ridgetally
