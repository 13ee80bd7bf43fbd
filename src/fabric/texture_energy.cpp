#include "fabric/texture_energy.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

/// The high-pass is taken on a picture this many times finer than the overview: at the overview's 480 px a
/// stitch of 3 mm on a 300 mm scene is 5 px there and 15 px here.
constexpr int finer = 3;
constexpr double highpass_sigma_px = 2.5;

}  // namespace

cv::Mat texture_energy(const GreyPyramid& pyramid, cv::Size overview) {
    const cv::Mat& grey = level_of_at_least(pyramid, finer * std::max(overview.width, overview.height));
    const cv::Size size(std::min(grey.cols, overview.width * finer),
                        std::min(grey.rows, overview.height * finer));
    cv::Mat fine;
    cv::resize(grey, fine, size, 0, 0, cv::INTER_AREA);
    fine.convertTo(fine, CV_32F);
    cv::Mat low;
    cv::GaussianBlur(fine, low, {}, highpass_sigma_px);
    cv::Mat energy = cv::abs(fine - low);
    cv::Mat brightness;
    cv::sqrt(low + 4.0, brightness);
    energy /= brightness;
    cv::sqrt(energy, energy);
    cv::Mat result;
    cv::resize(energy, result, overview, 0, 0, cv::INTER_AREA);
    // As wide as the largest stitches (9 mm of 300 mm): between two strands of one fabric there is no gap.
    cv::GaussianBlur(result, result, {}, std::max(overview.width, overview.height) / 80.0);
    return result;
}

}  // namespace ridgetally
