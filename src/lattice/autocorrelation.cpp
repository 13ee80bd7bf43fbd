#include "lattice/autocorrelation.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally {
namespace {

/// Lags with fewer pairs than this part of the region are not trusted: their value is divided by the floor
/// instead.
constexpr double least_overlap = 0.04;

cv::Mat power_spectrum(const cv::Mat& picture, cv::Size size) {
    cv::Mat padded = cv::Mat::zeros(size, CV_32F);
    picture.copyTo(padded(cv::Rect({0, 0}, picture.size())));
    cv::dft(padded, padded, 0, picture.rows);
    cv::mulSpectrums(padded, padded, padded, 0, true);
    return padded;
}

cv::Mat lags_of(const cv::Mat& power, int max_lag_px) {
    cv::Mat cyclic;
    cv::dft(power, cyclic, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
    const int side = 2 * max_lag_px + 1;
    cv::Mat lags(side, side, CV_32F);
    for (int y = 0; y < side; ++y) {
        const int source_y = (y - max_lag_px + cyclic.rows) % cyclic.rows;
        for (int x = 0; x < side; ++x) {
            lags.at<float>(y, x) = cyclic.at<float>(source_y, (x - max_lag_px + cyclic.cols) % cyclic.cols);
        }
    }
    return lags;
}

/// How many pairs of pixels of the region lie apart by each lag. That number changes as slowly as the region
/// is large, so it is counted on a mask of about this many blocks a side: on every pixel it took a quarter of
/// the whole search. On fewer pixels than that, each counts.
cv::Mat pairs_of(const cv::Mat& mask, int max_lag_px) {
    constexpr int blocks_a_side = 100;
    const int block = std::max(1, std::min(mask.cols, mask.rows) / blocks_a_side);
    const cv::Size blocks((mask.cols + block - 1) / block, (mask.rows + block - 1) / block);
    cv::Mat padded;
    cv::copyMakeBorder(mask, padded, 0, blocks.height * block - mask.rows, 0,
                       blocks.width * block - mask.cols, cv::BORDER_CONSTANT, cv::Scalar(0));
    cv::Mat inside;
    cv::resize(padded, inside, blocks, 0, 0, cv::INTER_AREA);
    inside.convertTo(inside, CV_32F, 1.0 / 255.0);
    const int reach = max_lag_px / block + 1;
    const cv::Size size(cv::getOptimalDFTSize(blocks.width + reach),
                        cv::getOptimalDFTSize(blocks.height + reach));
    const cv::Mat coarse = lags_of(power_spectrum(inside, size), reach) * (block * block);
    // Lag 0 lies in the middle of both.
    const double offset = reach - static_cast<double>(max_lag_px) / block;
    const cv::Matx23d coarse_from_lags(1.0 / block, 0, offset, 0, 1.0 / block, offset);
    const int side = 2 * max_lag_px + 1;
    cv::Mat pairs;
    cv::warpAffine(coarse, pairs, coarse_from_lags, {side, side}, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                   cv::BORDER_REPLICATE);
    // Blocks round the peak off; its height is known.
    pairs.at<float>(max_lag_px, max_lag_px) = static_cast<float>(cv::countNonZero(mask));
    return pairs;
}

}  // namespace

float Autocorrelation::at(double dx_px, double dy_px) const {
    const double x = dx_px + max_lag_px;
    const double y = dy_px + max_lag_px;
    const double last = 2.0 * max_lag_px;
    if (x < 0 || y < 0 || x > last || y > last) return 0.0F;
    const int x0 = std::min(static_cast<int>(x), 2 * max_lag_px - 1);
    const int y0 = std::min(static_cast<int>(y), 2 * max_lag_px - 1);
    const auto fx = static_cast<float>(x - x0);
    const auto fy = static_cast<float>(y - y0);
    const auto* top = values.ptr<float>(y0) + x0;
    const auto* bottom = values.ptr<float>(y0 + 1) + x0;
    return (1 - fy) * ((1 - fx) * top[0] + fx * top[1]) + fy * ((1 - fx) * bottom[0] + fx * bottom[1]);
}

Autocorrelation autocorrelation(const std::vector<cv::Mat>& channels, const cv::Mat& mask, int max_lag_px) {
    if (channels.empty() || max_lag_px < 1)
        throw std::invalid_argument("autocorrelation: no channels or no lags");
    const cv::Size size(cv::getOptimalDFTSize(mask.cols + max_lag_px),
                        cv::getOptimalDFTSize(mask.rows + max_lag_px));
    std::vector<cv::Mat> spectra(channels.size());
    cv::Mat pairs;
    const int last = static_cast<int>(channels.size());
    cv::parallel_for_({0, last + 1}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            if (i == last)
                pairs = pairs_of(mask, max_lag_px);
            else
                spectra[static_cast<std::size_t>(i)] =
                    power_spectrum(channels[static_cast<std::size_t>(i)], size);
        }
    });
    cv::Mat power = spectra.front();
    for (std::size_t i = 1; i < spectra.size(); ++i) power += spectra[i];
    cv::max(pairs, least_overlap * cv::countNonZero(mask), pairs);

    Autocorrelation result;
    result.max_lag_px = max_lag_px;
    result.values = lags_of(power, max_lag_px) / pairs;
    const auto zero = result.values.at<float>(max_lag_px, max_lag_px);
    if (zero > 0.0F) result.values /= zero;
    return result;
}

}  // namespace ridgetally
