#include "scale/robust_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr int most_coefficients = 5;
using Row = std::array<double, most_coefficients + 1>;

/// Solves the normal equations by elimination with pivoting; singular columns give zero.
std::vector<double> solve(std::array<Row, most_coefficients>& m, int n) {
    for (int c = 0; c < n; ++c) {
        int pivot = c;
        for (int r = c + 1; r < n; ++r)
            if (std::abs(m[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)]) >
                std::abs(m[static_cast<std::size_t>(pivot)][static_cast<std::size_t>(c)]))
                pivot = r;
        std::swap(m[static_cast<std::size_t>(c)], m[static_cast<std::size_t>(pivot)]);
        auto& row = m[static_cast<std::size_t>(c)];
        const double lead = row[static_cast<std::size_t>(c)];
        if (std::abs(lead) < 1e-12) {
            row.fill(0.0);
            row[static_cast<std::size_t>(c)] = 1.0;
            continue;
        }
        for (double& x : row) x /= lead;
        for (int r = 0; r < n; ++r) {
            if (r == c) continue;
            auto& other = m[static_cast<std::size_t>(r)];
            const double f = other[static_cast<std::size_t>(c)];
            for (std::size_t i = 0; i < other.size(); ++i) other[i] -= f * row[i];
        }
    }
    std::vector<double> x;
    for (int i = 0; i < n; ++i) x.push_back(m[static_cast<std::size_t>(i)][most_coefficients]);
    return x;
}

void weighted_fit(const std::vector<Sample>& samples, const std::vector<double>& weights, Polynomial& p) {
    const auto n = p.coefficients.size();
    std::array<Row, most_coefficients> m{};
    for (std::size_t s = 0; s < samples.size(); ++s) {
        const double t = (samples[s].x - p.centre) / p.half_range;
        std::array<double, most_coefficients> basis{1.0};
        for (std::size_t i = 1; i < n; ++i) basis[i] = basis[i - 1] * t;
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j) m[i][j] += weights[s] * basis[i] * basis[j];
            m[i][most_coefficients] += weights[s] * basis[i] * samples[s].y;
        }
    }
    p.coefficients = solve(m, static_cast<int>(n));
}

}  // namespace

double Polynomial::slope(double x) const {
    const double t = std::clamp((x - centre) / half_range, -1.0, 1.0);
    double sum = 0.0;
    for (std::size_t i = coefficients.size(); i-- > 1;)
        sum = sum * t + static_cast<double>(i) * coefficients[i];
    return sum / half_range;
}

double Polynomial::operator()(double x) const {
    const double t = std::clamp((x - centre) / half_range, -1.0, 1.0);
    double sum = 0.0;
    for (std::size_t i = coefficients.size(); i-- > 0;) sum = sum * t + coefficients[i];
    return sum + slope(x) * (x - centre - t * half_range);
}

double quantile_of(std::vector<double> values, double fraction) {
    if (values.empty()) return 0.0;
    const auto at =
        static_cast<std::ptrdiff_t>(std::lround(fraction * static_cast<double>(values.size() - 1)));
    std::nth_element(values.begin(), values.begin() + at, values.end());
    return values[static_cast<std::size_t>(at)];
}

Polynomial robust_polynomial(const std::vector<Sample>& samples, int degree, double floor) {
    Polynomial p;
    if (samples.empty()) return p;
    const auto [low, high] = std::minmax_element(samples.begin(), samples.end(),
                                                 [](const auto& a, const auto& b) { return a.x < b.x; });
    p.centre = 0.5 * (low->x + high->x);
    p.half_range = std::max(0.5 * (high->x - low->x), 1e-9);
    const int coefficients = std::min({degree + 1, static_cast<int>(samples.size()), most_coefficients});
    p.coefficients.assign(static_cast<std::size_t>(coefficients), 0.0);
    std::vector<double> weights;
    for (const Sample& s : samples) weights.push_back(s.weight);
    weighted_fit(samples, weights, p);
    std::vector<double> residuals(samples.size());
    for (int round = 0; round < 14; ++round) {
        for (std::size_t i = 0; i < samples.size(); ++i)
            residuals[i] = std::abs(samples[i].y - p(samples[i].x));
        const double scale = std::max(mad_to_std * median_of(residuals), floor);
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double ratio = residuals[i] / (4.685 * scale);
            const double biweight = ratio < 1.0 ? (1.0 - ratio * ratio) * (1.0 - ratio * ratio) : 0.0;
            const double absolute = scale / std::max(residuals[i], scale);
            weights[i] = samples[i].weight * (round < 6 ? absolute : biweight);
        }
        weighted_fit(samples, weights, p);
    }
    return p;
}

}  // namespace ridgetally
