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

/// The window times the comb's wave, sampled, with its mean under the window.
struct Wave {
    std::vector<float> cosine;
    std::vector<float> sine;
    double mean_cosine = 0.0;
    double mean_sine = 0.0;
};

struct Window {
    int from = 0;
    std::vector<float> hann;
    double total = 0.0;
};

Window window_at(int columns, int centre, int reach) {
    Window w;
    w.from = std::max(0, centre - reach);
    const int to = std::min(columns - 1, centre + reach);
    for (int i = w.from; i <= to; ++i) {
        const double hann = 0.5 + 0.5 * std::cos(std::numbers::pi * (i - centre) / (reach + 1.0));
        w.hann.push_back(static_cast<float>(hann));
        w.total += hann;
    }
    return w;
}

Wave wave_of(const Window& window, const std::vector<double>& index, int harmonic) {
    Wave wave;
    for (std::size_t i = 0; i < window.hann.size(); ++i) {
        const double angle =
            -2.0 * std::numbers::pi * harmonic * index[static_cast<std::size_t>(window.from) + i];
        const auto hann = static_cast<double>(window.hann[i]);
        wave.cosine.push_back(static_cast<float>(hann * std::cos(angle)));
        wave.sine.push_back(static_cast<float>(hann * std::sin(angle)));
        wave.mean_cosine += hann * std::cos(angle) / window.total;
        wave.mean_sine += hann * std::sin(angle) / window.total;
    }
    return wave;
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

Phasor phasor_of(const float* line, const Window& window, const Wave& wave, double mean) {
    return {dot(line, wave.cosine) / window.total - mean * wave.mean_cosine,
            dot(line, wave.sine) / window.total - mean * wave.mean_sine};
}

}  // namespace

double RowPhasors::coherence(int row) const {
    const auto j = static_cast<std::size_t>(row);
    return std::min(1.0, 2.0 * comb_power[j] / std::max(variance[j], least_variance));
}

RowPhasors demodulate(const Strip& strip, const std::vector<double>& index, int centre, int reach,
                      double samples) {
    const Window window = window_at(strip.grey.cols, centre, reach);
    const int harmonics = std::clamp(static_cast<int>(samples / samples_a_harmonic), 1, most_harmonics);
    std::vector<Wave> waves;
    for (int h = 1; h <= harmonics; ++h) waves.push_back(wave_of(window, index, h));
    RowPhasors rows;
    std::vector<float> squares(window.hann.size());
    for (int j = 0; j < strip.grey.rows; ++j) {
        const float* line = strip.grey.ptr<float>(j) + window.from;
        std::transform(line, line + window.hann.size(), squares.begin(), [](float v) { return v * v; });
        const double mean = dot(line, window.hann) / window.total;
        const double square = dot(squares.data(), window.hann);
        double power = 0.0;
        for (const Wave& wave : waves) {
            const Phasor p = phasor_of(line, window, wave, mean);
            if (&wave == &waves.front()) rows.phasor.push_back(p);
            power += std::norm(p);
        }
        rows.comb_power.push_back(power);
        rows.variance.push_back(std::max(square / window.total - mean * mean, 0.0));
    }
    return rows;
}

}  // namespace ridgetally
