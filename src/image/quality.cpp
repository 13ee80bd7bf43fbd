#include "image/quality.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>
#include <stdexcept>
#include <vector>

#include "image/decode.h"
#include "image/resample.h"

namespace ridgetally {
namespace {

/// Side of the copy that is looked at, and the two blurs of the ratio. Swept over 350, 500 and 1000 px with
/// blurs of 1 to 2.5 px on rendered and real photos: at 1000 px camera noise of 4 levels hides any blur above
/// 3 per mille of the side; at 500 px with 1.5 and 2.5 px, 8 per mille read 3.7 to 8.7, 12 read 5 to 12.
/// Noise and fine texture make blur read too small, never more than a tenth too large.
constexpr int copy_side_px = 500;
constexpr double first_sigma = 1.5;
constexpr double second_sigma = 2.5;
/// Edges looked at: the strongest 2 % of the pixels, and of them the sharpest tenth.
constexpr double edge_share = 0.02;
constexpr double sharpest_share = 0.1;

double level_above(const cv::Mat& grey, double share) {
    std::array<int, 256> counts{};
    for (int y = 0; y < grey.rows; ++y) {
        const auto* row = grey.ptr<std::uint8_t>(y);
        for (int x = 0; x < grey.cols; ++x) ++counts[row[x]];
    }
    const double wanted = share * static_cast<double>(grey.total());
    int level = 255;
    for (int above = counts[255]; level > 0 && above < wanted;
         above += counts[static_cast<std::size_t>(level)])
        --level;
    return level;
}

cv::Mat gradient_magnitude(const cv::Mat& picture, double sigma) {
    cv::Mat smooth;
    cv::Mat dx;
    cv::Mat dy;
    cv::Mat magnitude;
    cv::GaussianBlur(picture, smooth, cv::Size(), sigma);
    cv::Sobel(smooth, dx, CV_32F, 1, 0, 1);
    cv::Sobel(smooth, dy, CV_32F, 0, 1, 1);
    cv::magnitude(dx, dy, magnitude);
    return magnitude;
}

/// Value below which `share` of the values lie. Reorders them.
float quantile(std::vector<float>& values, double share) {
    const auto index = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + index, values.end());
    return values[static_cast<std::size_t>(index)];
}

/// Blur, px, of the sharpest strong edges; none where the picture has no edge at all.
std::optional<double> sharpest_edge_px(const cv::Mat& picture) {
    const cv::Mat first = gradient_magnitude(picture, first_sigma);
    const cv::Mat second = gradient_magnitude(picture, second_sigma);
    std::vector<float> strengths(first.begin<float>(), first.end<float>());
    const float strong = quantile(strengths, 1.0 - edge_share);
    if (strong < 1e-3F) return std::nullopt;

    // The central difference blurs as a box of two pixels does: variance 1/3.
    const double first_variance = first_sigma * first_sigma + 1.0 / 3.0;
    const double second_variance = second_sigma * second_sigma + 1.0 / 3.0;
    std::vector<float> variances;
    for (int y = 0; y < first.rows; ++y) {
        const auto* before = first.ptr<float>(y);
        const auto* after = second.ptr<float>(y);
        for (int x = 0; x < first.cols; ++x) {
            if (before[x] < strong || after[x] <= 0.0F) continue;
            const double ratio = std::pow(before[x] / after[x], 2.0);
            // An edge cannot get steeper by blurring; where neighbours make it look so, there is no estimate.
            if (ratio <= 1.0) continue;
            variances.push_back(
                static_cast<float>((second_variance - ratio * first_variance) / (ratio - 1.0)));
        }
    }
    if (variances.empty()) return std::nullopt;
    return std::sqrt(std::max(0.0, static_cast<double>(quantile(variances, sharpest_share))));
}

Refusal too_blurred(const char* message) {
    return photo_refusal("too-blurred", message,
                         "hold the phone still, tap on the fabric to focus, and take it again");
}

}  // namespace

PhotoQuality photo_quality(const cv::Mat& grey) {
    if (grey.empty() || grey.type() != CV_8UC1)
        throw std::invalid_argument("photo_quality: a CV_8UC1 picture");
    const int longer = std::max(grey.cols, grey.rows);
    const int shorter = std::min(grey.cols, grey.rows);
    const int factor = std::clamp(longer / copy_side_px, 1, shorter);
    // In two steps, so that rounding to whole levels happens before the averaging and not after it.
    const int half = factor % 2 == 0 ? factor / 2 : factor;
    cv::Mat copy;
    shrunk(grey, half).convertTo(copy, CV_32F);
    copy = shrunk(copy, factor / half);

    PhotoQuality quality;
    cv::Mat levels;
    copy.convertTo(levels, CV_8U);
    quality.brightest_level = level_above(levels, 0.01);
    quality.burnt_share =
        static_cast<double>(cv::countNonZero(levels >= 250)) / static_cast<double>(levels.total());
    const auto edge = sharpest_edge_px(copy);
    quality.edge_blur = edge ? *edge * factor / longer : 1.0;
    return quality;
}

Outcome<PhotoQuality> check_quality(const cv::Mat& grey, const QualityLimits& limits) {
    const PhotoQuality quality = photo_quality(grey);
    if (quality.brightest_level < limits.min_brightest_level)
        return photo_refusal("too-dark", "the photo is too dark to measure",
                             "take it in daylight or under a brighter lamp");
    if (quality.burnt_share > limits.max_burnt_share)
        return photo_refusal("too-bright", "the photo is burnt out: nearly all of it is plain white",
                             "take it out of the direct light or lower the exposure");
    if (quality.edge_blur >= 1.0) return too_blurred("the photo shows one even surface");
    if (quality.edge_blur > limits.max_edge_blur) return too_blurred("the photo is too blurred to measure");
    return quality;
}

Outcome<PhotoQuality> check_quality(const GreyPyramid& photo, const QualityLimits& limits) {
    return check_quality(level_of_at_least(photo, 2 * copy_side_px), limits);
}

}  // namespace ridgetally
