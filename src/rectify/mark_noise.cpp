#include "rectify/mark_noise.h"

#include <algorithm>
#include <cmath>

namespace ridgetally {

double noise_of(const std::vector<double>& residuals, int fitted, double expected) {
    constexpr double prior_marks = 4.0;
    const double free = static_cast<double>(residuals.size()) - fitted;
    if (free < 1.0) return expected;
    std::vector<double> sizes;
    sizes.reserve(residuals.size());
    for (const double r : residuals) sizes.push_back(std::abs(r));
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    const double variance = 1.4826 * *middle * 1.4826 * *middle * static_cast<double>(sizes.size()) / free;
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

}  // namespace ridgetally
