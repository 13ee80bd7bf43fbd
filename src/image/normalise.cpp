#include "image/normalise.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>
#include <vector>

namespace ridgetally {
namespace {

/// Weight, weighted sum and weighted sum of squares of blocks of pixels: one CV_32FC3 pixel a block.
template <typename Pixel>
cv::Mat block_moments(const cv::Mat& grey, const cv::Mat& mask, int block, float zero) {
    const int rows = (grey.rows + block - 1) / block;
    const int columns = (grey.cols + block - 1) / block;
    cv::Mat moments(rows, columns, CV_32FC3, cv::Scalar::all(0));
    cv::parallel_for_({0, rows}, [&](const cv::Range& range) {
        for (int y = range.start * block; y < std::min(range.end * block, grey.rows); ++y) {
            const auto* in = grey.ptr<Pixel>(y);
            const auto* counts = mask.empty() ? nullptr : mask.ptr<std::uint8_t>(y);
            auto* out = moments.ptr<cv::Vec3f>(y / block);
            for (int bx = 0; bx < columns; ++bx) {
                cv::Vec3f sum(0, 0, 0);
                for (int x = bx * block; x < std::min((bx + 1) * block, grey.cols); ++x) {
                    if (counts != nullptr && counts[x] == 0) continue;
                    const float value = static_cast<float>(in[x]) - zero;
                    sum += cv::Vec3f(1.0F, value, value * value);
                }
                out[bx] += sum;
            }
        }
    });
    return moments;
}

/// Blurred moments to mean and 1 / deviation: CV_32FC2. Where no counted pixel is near, both are 0.
cv::Mat mean_and_gain(const cv::Mat& moments, float floor_std, float zero) {
    cv::Mat result(moments.size(), CV_32FC2);
    for (int y = 0; y < moments.rows; ++y) {
        const auto* in = moments.ptr<cv::Vec3f>(y);
        auto* out = result.ptr<cv::Vec2f>(y);
        for (int x = 0; x < moments.cols; ++x) {
            out[x] = cv::Vec2f(0, 0);
            if (in[x][0] < 1e-6F) continue;
            const float mean = in[x][1] / in[x][0];
            const float variance = std::max(in[x][2] / in[x][0] - mean * mean, 0.0F);
            const float deviation = std::sqrt(variance + floor_std * floor_std);
            if (deviation > 0.0F) out[x] = cv::Vec2f(mean + zero, 1.0F / deviation);
        }
    }
    return result;
}

/// Where pixel i lies between the centres of two blocks.
struct Between {
    int first = 0;
    int second = 0;
    float share = 0.0F;  ///< of the second
};

Between between_blocks(int i, int block, int blocks) {
    const double at = (i + 0.5) / block - 0.5;
    const int first = static_cast<int>(std::floor(at));
    return {std::clamp(first, 0, blocks - 1), std::clamp(first + 1, 0, blocks - 1),
            static_cast<float>(at - first)};
}

template <typename Pixel>
cv::Mat applied(const cv::Mat& grey, const cv::Mat& mask, const cv::Mat& local, int block) {
    cv::Mat result(grey.size(), CV_32FC1);
    std::vector<Between> columns;
    columns.reserve(static_cast<std::size_t>(grey.cols));
    for (int x = 0; x < grey.cols; ++x) columns.push_back(between_blocks(x, block, local.cols));
    cv::parallel_for_({0, grey.rows}, [&](const cv::Range& range) {
        std::vector<cv::Vec2f> row(static_cast<std::size_t>(local.cols));
        for (int y = range.start; y < range.end; ++y) {
            const Between rows = between_blocks(y, block, local.rows);
            const auto* above = local.ptr<cv::Vec2f>(rows.first);
            const auto* below = local.ptr<cv::Vec2f>(rows.second);
            for (std::size_t i = 0; i < row.size(); ++i)
                row[i] = above[i] * (1.0F - rows.share) + below[i] * rows.share;
            const auto* in = grey.ptr<Pixel>(y);
            const auto* counts = mask.empty() ? nullptr : mask.ptr<std::uint8_t>(y);
            auto* out = result.ptr<float>(y);
            for (int x = 0; x < grey.cols; ++x) {
                const Between& column = columns[static_cast<std::size_t>(x)];
                const auto& left = row[static_cast<std::size_t>(column.first)];
                const auto& right = row[static_cast<std::size_t>(column.second)];
                const float mean = left[0] + (right[0] - left[0]) * column.share;
                const float gain = left[1] + (right[1] - left[1]) * column.share;
                const bool counted = counts == nullptr || counts[x] != 0;
                out[x] = counted ? (static_cast<float>(in[x]) - mean) * gain : 0.0F;
            }
        }
    });
    return result;
}

template <typename Pixel>
cv::Mat normalised(const cv::Mat& grey, const NormaliseOptions& options, const cv::Mat& mask) {
    const int block = std::max(1, static_cast<int>(options.sigma_px / 2.0));
    // Averaging over blocks adds block^2 / 12 to the window's variance, interpolating between them block^2 /
    // 6; the blur gives what is missing.
    const double wanted = options.sigma_px / block;
    const double blur = block == 1 ? wanted : std::sqrt(wanted * wanted - 0.25);
    // Sums of squares keep their digits when values lie about zero.
    const auto zero = static_cast<float>(cv::mean(grey, mask)[0]);
    cv::Mat moments = block_moments<Pixel>(grey, mask, block, zero);
    cv::GaussianBlur(moments, moments, cv::Size(), blur, blur, cv::BORDER_CONSTANT);
    const cv::Mat local = mean_and_gain(moments, static_cast<float>(options.floor_std), zero);
    return applied<Pixel>(grey, mask, local, block);
}

}  // namespace

cv::Mat locally_normalised(const cv::Mat& grey, const NormaliseOptions& options, const cv::Mat& mask) {
    const bool mask_fits = mask.empty() || (mask.type() == CV_8UC1 && mask.size() == grey.size());
    if (grey.empty() || !mask_fits || !(options.sigma_px > 0.0) || options.floor_std < 0.0)
        throw std::invalid_argument("locally_normalised: a grey picture, a mask of its size, sigma_px > 0");
    if (grey.type() == CV_8UC1) return normalised<std::uint8_t>(grey, options, mask);
    if (grey.type() == CV_32FC1) return normalised<float>(grey, options, mask);
    throw std::invalid_argument("locally_normalised: CV_8UC1 or CV_32FC1");
}

}  // namespace ridgetally
