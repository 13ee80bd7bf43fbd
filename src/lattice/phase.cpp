#include "lattice/phase.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <opencv2/core/hal/intrin.hpp>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
/// Phases that agree less than this at a lag have slipped by whole stitches somewhere: a sum of unit vectors
/// with a normal phase scatter of 1.5 rad has this mean length, and beyond it whole turns are no longer sure.
constexpr double least_coherence = 0.32;

/// Grid of the response: a quarter of the narrowest window, at which a Gaussian has lost nothing.
int step_for(const DemodulateOptions& options) {
    const double narrowest = std::min(options.sigma_along_px, options.sigma_across_px);
    return std::clamp(static_cast<int>(narrowest / 2.0), 1, 8);
}

cv::Rect on_grid(const cv::Rect& region_px, const PhaseField& field) {
    const int step = field.step_px;
    return cv::Rect(region_px.x / step, region_px.y / step, region_px.width / step, region_px.height / step) &
           cv::Rect({0, 0}, field.response.size());
}

struct LagSum {
    std::complex<double> product{0.0, 0.0};
    double weight = 0.0;

    [[nodiscard]] double coherence() const { return weight > 0.0 ? std::abs(product) / weight : 0.0; }
};

/// Sums over a row of samples and those a lag away: of a* b, and of |a| |b|, by one root.
struct RowSums {
    float re = 0.F;
    float im = 0.F;
    float weight = 0.F;

    void add(const cv::Vec2f& a, const cv::Vec2f& b) {
        re += b[0] * a[0] + b[1] * a[1];
        im += b[1] * a[0] - b[0] * a[1];
        weight += std::sqrt((a[0] * a[0] + a[1] * a[1]) * (b[0] * b[0] + b[1] * b[1]));
    }
};

/// Four samples at once: this is the innermost loop of the refinement.
RowSums row_sums(const cv::Vec2f* near, const cv::Vec2f* far, int width) {
    cv::v_float32x4 re = cv::v_setzero_f32();
    cv::v_float32x4 im = cv::v_setzero_f32();
    cv::v_float32x4 weight = cv::v_setzero_f32();
    int x = 0;
    for (; x + 4 <= width; x += 4) {
        cv::v_float32x4 a_re;
        cv::v_float32x4 a_im;
        cv::v_float32x4 b_re;
        cv::v_float32x4 b_im;
        cv::v_load_deinterleave(near[x].val, a_re, a_im);
        cv::v_load_deinterleave(far[x].val, b_re, b_im);
        re += b_re * a_re + b_im * a_im;
        im += b_im * a_re - b_re * a_im;
        weight += cv::v_sqrt((a_re * a_re + a_im * a_im) * (b_re * b_re + b_im * b_im));
    }
    RowSums sums{cv::v_reduce_sum(re), cv::v_reduce_sum(im), cv::v_reduce_sum(weight)};
    for (; x < width; ++x) sums.add(near[x], far[x]);
    return sums;
}

LagSum lag_sum(const cv::Mat& response, const cv::Rect& region, cv::Point lag) {
    LagSum sum;
    for (int y = region.y; y + lag.y < region.y + region.height; ++y) {
        const auto* near = response.ptr<cv::Vec2f>(y) + region.x;
        const auto* far = response.ptr<cv::Vec2f>(y + lag.y) + region.x + lag.x;
        // A row at a time loses nothing in single precision.
        const RowSums row = row_sums(near, far, region.width - lag.x);
        sum.product += std::complex<double>(row.re, row.im);
        sum.weight += static_cast<double>(row.weight);
    }
    return sum;
}

LagSum lag_sum(const std::vector<PhaseField>& fields, const cv::Rect& region, cv::Point lag) {
    LagSum sum;
    for (const auto& field : fields) {
        const LagSum one = lag_sum(field.response, on_grid(region, field), lag);
        sum.product += one.product;
        sum.weight += one.weight;
    }
    return sum;
}

struct SlopeReading {
    double frequency = 0.0;  // turns per px against the comb
    double coherence = 0.0;
    double lag_px = 0.0;
};

/// Residual frequency along `axis`, from short lags to long ones.
SlopeReading slope(const std::vector<PhaseField>& fields, const cv::Rect& region, Axis axis,
                   double first_lag_px, double longest_lag_px) {
    SlopeReading reading;
    const int step = fields.front().step_px;
    for (double lag_px = first_lag_px; lag_px <= longest_lag_px; lag_px *= 1.5) {
        const int lag = std::max(1, static_cast<int>(std::lround(lag_px / step)));
        const LagSum sum = lag_sum(fields, region, axis == Axis::x ? cv::Point(lag, 0) : cv::Point(0, lag));
        if (reading.lag_px > 0.0 && sum.coherence() < least_coherence) break;
        const double turns = std::arg(sum.product) / turn;
        const double used_px = static_cast<double>(lag) * step;
        const double whole = std::round(reading.frequency * used_px - turns);
        reading = {(turns + whole) / used_px, sum.coherence(), used_px};
    }
    return reading;
}

}  // namespace

PhaseField demodulate(const cv::Mat& channel, const cv::Mat& mask, Axis axis, double pitch_px,
                      const DemodulateOptions& options) {
    const int length = axis == Axis::x ? channel.cols : channel.rows;
    std::vector<cv::Vec2f> carrier(static_cast<std::size_t>(length));
    for (int i = 0; i < length; ++i) {
        const double phase = turn * i / pitch_px;
        carrier[static_cast<std::size_t>(i)] = {static_cast<float>(std::cos(phase)),
                                                static_cast<float>(-std::sin(phase))};
    }
    cv::Mat shifted(channel.size(), CV_32FC2);
    for (int y = 0; y < channel.rows; ++y) {
        const auto* source = channel.ptr<float>(y);
        auto* target = shifted.ptr<cv::Vec2f>(y);
        for (int x = 0; x < channel.cols; ++x) {
            target[x] = carrier[static_cast<std::size_t>(axis == Axis::x ? x : y)] * source[x];
        }
    }
    PhaseField field;
    field.axis = axis;
    field.pitch_px = pitch_px;
    field.step_px = step_for(options);
    const int step = field.step_px;
    const cv::Size grid(channel.cols / step, channel.rows / step);
    const cv::Rect whole_blocks(0, 0, grid.width * step, grid.height * step);
    cv::Mat reduced;
    cv::resize(shifted(whole_blocks), reduced, grid, 0, 0, cv::INTER_AREA);
    const double sigma_x = (axis == Axis::x ? options.sigma_along_px : options.sigma_across_px) / step;
    const double sigma_y = (axis == Axis::x ? options.sigma_across_px : options.sigma_along_px) / step;
    cv::Mat smoothed;
    cv::GaussianBlur(reduced, smoothed, {}, sigma_x, sigma_y, cv::BORDER_CONSTANT);
    cv::Mat inside;
    cv::resize(mask(whole_blocks), inside, grid, 0, 0, cv::INTER_AREA);
    field.response = cv::Mat::zeros(grid, CV_32FC2);
    smoothed.copyTo(field.response, inside > 127);
    return field;
}

PhasePitch pitch_of(const std::vector<PhaseField>& fields, const cv::Rect& region, double longest_lag_px) {
    const Axis axis = fields.front().axis;
    const double pitch = fields.front().pitch_px;
    // The first lag of one pitch leaves half a turn either way: the first guess may be off by a third.
    const SlopeReading reading = slope(fields, region, axis, pitch, std::max(pitch, longest_lag_px));
    return {1.0 / (1.0 / pitch + reading.frequency), reading.coherence, reading.lag_px};
}

double cross_frequency(const std::vector<PhaseField>& fields, const cv::Rect& region, double longest_lag_px) {
    const Axis axis = fields.front().axis == Axis::x ? Axis::y : Axis::x;
    return slope(fields, region, axis, 0.5 * fields.front().pitch_px, longest_lag_px).frequency;
}

}  // namespace ridgetally
