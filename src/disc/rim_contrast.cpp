#include "disc/rim_contrast.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace ridgetally {
namespace {

/// Bins of 8 levels: wider than a camera's noise (1 to 4 levels), narrower than yarn from table.
constexpr int bins = 32;
constexpr std::size_t sectors = 12;
/// No single pixel outvotes a run of ten others.
constexpr float most_evidence = 3.0F;
/// Share of "anything": a colour, or a contrast, that was seen nowhere says nothing.
constexpr float colour_floor = 2e-5F;
constexpr float busy_floor = 1e-2F;
/// About two strands of fine yarn on a strip of one row a photo pixel. Not swept.
constexpr int busy_window_px = 7;

/// Counts of one feature, spread over neighbouring bins.
class Histogram {
  public:
    explicit Histogram(std::vector<int> strides)
        : strides_(std::move(strides)), counts_(static_cast<std::size_t>(strides_.back() * bins), 0.0F) {}

    void add(std::size_t bin) {
        counts_[bin] += 1.0F;
        total_ += 1.0F;
    }
    void add(const Histogram& other, float weight) {
        for (std::size_t i = 0; i < counts_.size(); ++i) counts_[i] += weight * other.counts_[i];
        total_ += weight * other.total_;
    }
    /// 1 2 1 along each axis.
    void smooth() {
        for (const int stride : strides_) {
            const auto step = static_cast<std::size_t>(stride);
            std::vector<float> out(counts_.size());
            for (std::size_t i = 0; i < counts_.size(); ++i) {
                const int at = static_cast<int>(i) / stride % bins;
                const float before = at > 0 ? counts_[i - step] : counts_[i];
                const float after = at + 1 < bins ? counts_[i + step] : counts_[i];
                out[i] = 0.25F * before + 0.5F * counts_[i] + 0.25F * after;
            }
            counts_.swap(out);
        }
    }
    [[nodiscard]] float share(std::size_t bin, float floor) const {
        return (total_ > 0.0F ? counts_[bin] / total_ : 0.0F) + floor;
    }

  private:
    std::vector<int> strides_;
    std::vector<float> counts_;
    float total_ = 0.0F;
};

/// Bin of every pixel of the strip: of its colour, or of how busy its neighbourhood is.
using Bins = cv::Mat_<int>;

Bins colour_bins(const cv::Mat& ycc) {
    Bins result(ycc.size());
    for (int y = 0; y < ycc.rows; ++y) {
        const auto* from = ycc.ptr<cv::Vec3b>(y);
        int* to = result.ptr<int>(y);
        for (int x = 0; x < ycc.cols; ++x)
            to[x] = ((from[x][0] >> 3) * bins + (from[x][1] >> 3)) * bins + (from[x][2] >> 3);
    }
    return result;
}

/// Three bins an octave of the brightness's standard deviation over a window, from half a grey level on.
Bins busy_bins(const cv::Mat& ycc) {
    cv::Mat luma;
    cv::extractChannel(ycc, luma, 0);
    luma.convertTo(luma, CV_32F);
    const cv::Size window(busy_window_px, busy_window_px);
    cv::Mat mean;
    cv::Mat square;
    cv::blur(luma, mean, window, {-1, -1}, cv::BORDER_REFLECT_101);
    cv::blur(luma.mul(luma), square, window, {-1, -1}, cv::BORDER_REFLECT_101);
    const cv::Mat whole = square - mean.mul(mean);
    // At the rim a window sees both sides and is busy on either: the evener of the window just outside and
    // the one just inside speaks for the pixel.
    constexpr int shift = busy_window_px / 2;
    cv::Mat framed;
    cv::copyMakeBorder(whole, framed, shift, shift, 0, 0, cv::BORDER_REPLICATE);
    const cv::Mat outwards = framed.rowRange(0, whole.rows);
    const cv::Mat inwards = framed.rowRange(2 * shift, 2 * shift + whole.rows);
    const cv::Mat variance = cv::min(outwards, inwards);
    Bins result(ycc.size());
    for (int y = 0; y < ycc.rows; ++y) {
        const auto* from = variance.ptr<float>(y);
        int* to = result.ptr<int>(y);
        for (int x = 0; x < ycc.cols; ++x) {
            const float octaves = 0.5F * std::log2(std::max(from[x], 0.25F)) + 1.0F;
            to[x] = std::clamp(static_cast<int>(3.0F * octaves), 0, bins - 1);
        }
    }
    return result;
}

/// Evidence of one feature, clipped.
cv::Mat evidence(const Bins& feature, const std::vector<int>& strides, float floor, float most,
                 const cv::Mat& inside, const cv::Mat& outside) {
    Histogram disc(strides);
    std::vector<Histogram> ground(sectors, Histogram(strides));
    const auto sector_of = [&](int x) { return static_cast<std::size_t>(x * sectors / feature.cols); };
    for (int y = 0; y < feature.rows; ++y) {
        for (int x = 0; x < feature.cols; ++x) {
            const auto bin = static_cast<std::size_t>(feature(y, x));
            if (inside.at<uchar>(y, x) != 0) disc.add(bin);
            if (outside.at<uchar>(y, x) != 0) ground[sector_of(x)].add(bin);
        }
    }
    disc.smooth();
    std::vector<Histogram> near(sectors, Histogram(strides));
    for (std::size_t s = 0; s < sectors; ++s) {
        near[s].add(ground[s], 1.0F);
        near[s].add(ground[(s + 1) % sectors], 0.5F);
        near[s].add(ground[(s + sectors - 1) % sectors], 0.5F);
        near[s].smooth();
    }
    cv::Mat result(feature.size(), CV_32F);
    for (int y = 0; y < feature.rows; ++y) {
        auto* out = result.ptr<float>(y);
        for (int x = 0; x < feature.cols; ++x) {
            const auto bin = static_cast<std::size_t>(feature(y, x));
            const float ratio = std::log(disc.share(bin, floor) / near[sector_of(x)].share(bin, floor));
            out[x] = std::clamp(ratio, -most, most);
        }
    }
    return result;
}

}  // namespace

cv::Mat rim_contrast(const cv::Mat& strip_ycc, const cv::Mat& inside, const cv::Mat& outside) {
    return evidence(colour_bins(strip_ycc), {1, bins, bins * bins}, colour_floor, most_evidence, inside,
                    outside) +
           evidence(busy_bins(strip_ycc), {1}, busy_floor, most_evidence, inside, outside);
}

}  // namespace ridgetally
