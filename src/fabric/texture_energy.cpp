#include "fabric/texture_energy.h"

#include <algorithm>
#include <cmath>
#include <opencv2/core/hal/intrin.hpp>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

/// The high-pass is taken on a picture this many times finer than the overview: at the overview's 480 px a
/// stitch of 3 mm on a 300 mm scene is 5 px there and 15 px here.
constexpr int finer = 3;
constexpr double highpass_sigma_px = 2.5;

/// A row of the picture to the root of its high-pass over the root of its brightness, in place: in one pass,
/// where a picture for each step would fill the memory six times over.
void to_energy(float* fine, const float* low, int count) {
    constexpr int lanes = cv::v_float32x4::nlanes;
    constexpr float dark = 4.F;
    const cv::v_float32x4 darks = cv::v_setall_f32(dark);
    int x = 0;
    for (; x + lanes <= count; x += lanes) {
        const cv::v_float32x4 slow = cv::v_load(low + x);
        const cv::v_float32x4 high = cv::v_absdiff(cv::v_load(fine + x), slow);
        cv::v_store(fine + x, cv::v_sqrt(high / cv::v_sqrt(slow + darks)));
    }
    for (; x < count; ++x) fine[x] = std::sqrt(std::abs(fine[x] - low[x]) / std::sqrt(low[x] + dark));
}

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
    for (int y = 0; y < fine.rows; ++y) to_energy(fine.ptr<float>(y), low.ptr<float>(y), fine.cols);
    cv::Mat result;
    cv::resize(fine, result, overview, 0, 0, cv::INTER_AREA);
    // As wide as the largest stitches (9 mm of 300 mm): between two strands of one fabric there is no gap.
    cv::GaussianBlur(result, result, {}, std::max(overview.width, overview.height) / 80.0);
    return result;
}

}  // namespace ridgetally
