#include "lattice/texture.h"

#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "image/normalise.h"

namespace ridgetally {
namespace {

/// Local contrast is clipped at so many standard deviations, so that glints and table showing through do not
/// rule.
constexpr double clip_std = 3.0;

cv::Mat standardised(const cv::Mat& channel, const cv::Mat& mask) {
    cv::Scalar mean;
    cv::Scalar std;
    cv::meanStdDev(channel, mean, std, mask);
    cv::Mat result = cv::Mat::zeros(channel.size(), CV_32F);
    cv::Mat((channel - mean[0]) / std::max(1e-6, std[0])).copyTo(result, mask);
    return result;
}

}  // namespace

std::vector<cv::Mat> texture_channels(const cv::Mat& grey, const cv::Mat& mask,
                                      const TextureOptions& options) {
    if (grey.type() != CV_32FC1 || mask.type() != CV_8UC1 || grey.size() != mask.size() ||
        cv::countNonZero(mask) == 0) {
        throw std::invalid_argument(
            "texture_channels: a CV_32FC1 picture and a CV_8UC1 mask of its size are needed");
    }
    cv::Mat normal = locally_normalised(grey, {.sigma_px = options.window_px}, mask);
    cv::min(normal, clip_std, normal);
    cv::max(normal, -clip_std, normal);

    cv::Mat smoothed;
    cv::GaussianBlur(normal, smoothed, {}, options.gradient_px);
    cv::Mat gx;
    cv::Mat gy;
    cv::Scharr(smoothed, gx, CV_32F, 1, 0, 1.0 / 32.0);
    cv::Scharr(smoothed, gy, CV_32F, 0, 1, 1.0 / 32.0);
    const cv::Mat cos2 = gx.mul(gx) - gy.mul(gy);
    const cv::Mat sin2 = 2.0 * gx.mul(gy);
    cv::Mat energy;
    cv::magnitude(cos2, sin2, energy);
    cv::sqrt(energy, energy);
    energy += 1e-6;

    std::vector<cv::Mat> channels = {normal, cos2 / energy, sin2 / energy};
    cv::parallel_for_({0, static_cast<int>(channels.size())}, [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i) {
            cv::GaussianBlur(channels[i], channels[i], {}, 0.5 * options.gradient_px);
            channels[i] = standardised(channels[i], mask);
        }
    });
    return channels;
}

}  // namespace ridgetally
