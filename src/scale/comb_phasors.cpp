#include "scale/comb_phasors.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ridgetally {
namespace {

constexpr int most_harmonics = 3;           // a stroke of a sixth of the pitch has no more worth summing
constexpr double samples_a_harmonic = 2.5;  // of each harmonic's own period: above Nyquist, below the lens
constexpr double least_variance = 1.0;      // grey levels squared: quantisation and JPEG alone

int harmonics_of(double samples) {
    return std::clamp(static_cast<int>(samples / samples_a_harmonic), 1, most_harmonics);
}

/// Sum of products, in eight sums side by side that a processor adds at once: in one after the other a
/// compiler must keep the order.
double dot(const float* a, const std::vector<float>& b) {
    constexpr std::size_t lanes = 8;
    std::array<float, lanes> sums{};
    const std::size_t whole = b.size() / lanes * lanes;
    for (std::size_t i = 0; i < whole; i += lanes)
        for (std::size_t k = 0; k < lanes; ++k) sums[k] += a[i + k] * b[i + k];
    for (std::size_t i = whole; i < b.size(); ++i) sums[0] += a[i] * b[i];
    double sum = 0.0;
    for (const float part : sums) sum += static_cast<double>(part);
    return sum;
}

}  // namespace

CombWaves::CombWaves(const std::vector<double>& index, double samples) {
    for (int h = 1; h <= harmonics_of(samples); ++h) {
        auto& wave = waves_.emplace_back();
        wave.reserve(index.size());
        for (const double i : index) {
            const double angle = -2.0 * std::numbers::pi * h * i;
            wave.emplace_back(std::cos(angle), std::sin(angle));
        }
    }
}

BlockPhasors::BlockPhasors(const Strip& strip, const CombWaves& waves, int centre, int reach, double samples)
    : strip_(strip), from_(std::max(0, centre - reach)), rows_(static_cast<std::size_t>(strip.grey.rows)) {
    const int to = std::min(strip.grey.cols - 1, centre + reach);
    for (int i = from_; i <= to; ++i) {
        const double hann = 0.5 + 0.5 * std::cos(std::numbers::pi * (i - centre) / (reach + 1.0));
        hann_.push_back(static_cast<float>(hann));
        total_ += hann;
    }
    squares_.resize(hann_.size());
    for (int h = 1; h <= harmonics_of(samples); ++h) {
        const Phasor* wave = waves.wave(h) + from_;
        auto& windowed = waves_.emplace_back();
        for (std::size_t i = 0; i < hann_.size(); ++i) {
            const auto hann = static_cast<double>(hann_[i]);
            windowed.cosine.push_back(static_cast<float>(hann * wave[i].real()));
            windowed.sine.push_back(static_cast<float>(hann * wave[i].imag()));
            windowed.mean_cosine += hann * wave[i].real() / total_;
            windowed.mean_sine += hann * wave[i].imag() / total_;
        }
    }
}

const RowPhasor& BlockPhasors::row(int j) {
    auto& row = rows_[static_cast<std::size_t>(j)];
    if (!row) row = demodulated(j);
    return *row;
}

Phasor BlockPhasors::phasor_of(const float* line, const WindowedWave& wave, double mean) const {
    return {dot(line, wave.cosine) / total_ - mean * wave.mean_cosine,
            dot(line, wave.sine) / total_ - mean * wave.mean_sine};
}

RowPhasor BlockPhasors::demodulated(int j) {
    const float* line = strip_.grey.ptr<float>(j) + from_;
    std::transform(line, line + hann_.size(), squares_.begin(), [](float v) { return v * v; });
    const double mean = dot(line, hann_) / total_;
    const double square = dot(squares_.data(), hann_);
    RowPhasor row;
    for (const WindowedWave& wave : waves_) {
        const Phasor p = phasor_of(line, wave, mean);
        if (&wave == &waves_.front()) row.phasor = p;
        row.comb_power += std::norm(p);
    }
    const double variance = std::max(square / total_ - mean * mean, 0.0);
    row.amplitude = std::abs(row.phasor);
    row.coherence = std::min(1.0, 2.0 * row.comb_power / std::max(variance, least_variance));
    return row;
}

}  // namespace ridgetally
