#include "rectify/mark_noise.h"

#include <algorithm>
#include <cmath>

#include "core/median.h"

namespace ridgetally {
namespace {}  // namespace

double noise_of(const std::vector<double>& residuals, int fitted, double expected) {
    constexpr double prior_marks = 4.0;
    const double free = static_cast<double>(residuals.size()) - fitted;
    if (free < 1.0) return expected;
    std::vector<double> sizes;
    sizes.reserve(residuals.size());
    for (const double r : residuals) sizes.push_back(std::abs(r));
    const double scaled = mad_to_std * median_of(sizes);
    const double variance = scaled * scaled * static_cast<double>(sizes.size()) / free;
    return std::sqrt((prior_marks * expected * expected + free * variance) / (prior_marks + free));
}

double repetition_of(const std::vector<double>& residuals, double noise) {
    std::vector<double> kept;
    for (const double r : residuals)
        if (std::abs(r) <= 4.0 * noise) kept.push_back(r);
    const std::size_t n = kept.size();
    if (n < 12) return 1.0;
    double power = 0.0;
    for (const double r : kept) power += r * r;
    if (power <= 0.0) return 1.0;
    double sum = 0.0;
    for (std::size_t lag = 1; lag <= n / 4; ++lag) {
        double product = 0.0;
        for (std::size_t i = lag; i < n; ++i) product += kept[i] * kept[i - lag];
        const double correlation = product / power;
        // Under independence a correlation has a standard deviation of 1 / sqrt(n) (Bartlett, 1946).
        if (correlation < 1.0 / std::sqrt(static_cast<double>(n))) break;
        sum += correlation;
    }
    return 1.0 + 2.0 * sum;
}

double unevenness_of(const std::vector<double>& positions, const std::vector<double>& residuals) {
    constexpr std::size_t sections = 6;
    if (residuals.size() < 4 * sections || positions.size() != residuals.size()) return 0.0;
    std::vector<double> middles, levels, errors;
    for (std::size_t k = 0; k < sections; ++k) {
        const auto from = static_cast<std::ptrdiff_t>(k * residuals.size() / sections);
        const auto to = static_cast<std::ptrdiff_t>((k + 1) * residuals.size() / sections);
        const std::vector<double> part(residuals.begin() + from, residuals.begin() + to);
        const double level = median_of(part);
        std::vector<double> sizes;
        for (const double r : part) sizes.push_back(std::abs(r - level));
        // Standard error of a median: sqrt(pi / 2) of that of a mean.
        errors.push_back(1.2533 * mad_to_std * median_of(sizes) /
                         std::sqrt(static_cast<double>(part.size())));
        levels.push_back(level);
        middles.push_back(median_of({positions.begin() + from, positions.begin() + to}));
    }
    double squares = 0.0;
    for (std::size_t k = 1; k < sections; ++k) {
        const double span = middles[k] - middles[k - 1];
        if (span == 0.0) return 0.0;
        const double slope = (levels[k] - levels[k - 1]) / span;
        const double noise = (errors[k] * errors[k] + errors[k - 1] * errors[k - 1]) / (span * span);
        squares += slope * slope - noise;
    }
    return std::sqrt(std::max(0.0, squares / (sections - 1)));
}

}  // namespace ridgetally
