#include "scale/robust_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr int most_coefficients = 5;
using Row = std::array<double, most_coefficients + 1>;

/// A sample with its place in the polynomial's own range, -1 to 1.
struct Placed {
    double t = 0.0;
    double y = 0.0;
    double given_weight = 0.0;
    double weight = 0.0;
};

double value_at(const std::vector<double>& coefficients, double t) {
    double sum = 0.0;
    for (std::size_t i = coefficients.size(); i-- > 0;) sum = sum * t + coefficients[i];
    return sum;
}

/// Solves the normal equations by elimination with pivoting, the right side behind them; singular columns
/// give zero.
void solve(std::array<Row, most_coefficients>& m, std::vector<double>& x) {
    const std::size_t n = x.size();
    for (std::size_t c = 0; c < n; ++c) {
        std::size_t pivot = c;
        for (std::size_t r = c + 1; r < n; ++r)
            if (std::abs(m[r][c]) > std::abs(m[pivot][c])) pivot = r;
        std::swap(m[c], m[pivot]);
        Row& row = m[c];
        const double lead = row[c];
        if (std::abs(lead) < 1e-12) {
            row.fill(0.0);
            row[c] = 1.0;
            continue;
        }
        for (std::size_t i = 0; i <= n; ++i) row[i] /= lead;
        for (std::size_t r = 0; r < n; ++r) {
            if (r == c) continue;
            Row& other = m[r];
            const double f = other[c];
            for (std::size_t i = 0; i <= n; ++i) other[i] -= f * row[i];
        }
    }
    for (std::size_t i = 0; i < n; ++i) x[i] = m[i][n];
}

/// Least squares with the present weights.
void weighted_fit(const std::vector<Placed>& samples, std::vector<double>& coefficients) {
    const std::size_t n = coefficients.size();
    std::array<double, 2 * most_coefficients - 1> moments{};
    std::array<double, most_coefficients> right{};
    for (const Placed& s : samples) {
        double power = s.weight;
        for (std::size_t i = 0; i < n; ++i) {
            moments[i] += power;
            right[i] += power * s.y;
            power *= s.t;
        }
        for (std::size_t i = n; i + 1 < 2 * n; ++i) {
            moments[i] += power;
            power *= s.t;
        }
    }
    std::array<Row, most_coefficients> m{};
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) m[i][j] = moments[i + j];
        m[i][n] = right[i];
    }
    solve(m, coefficients);
}

enum class Loss { least_absolute, biweight };

/// Least squares again and again, each time with weights from the last residuals, until the polynomial stays
/// where it is.
void reweighted(std::vector<Placed>& samples, Loss loss, double floor, std::vector<double>& coefficients) {
    constexpr int most_rounds = 8;
    constexpr double settled_share = 1e-3;    // of the smallest scale believed: nothing anybody measures
    constexpr double biweight_reach = 4.685;  // 95 % efficient under the normal law (Huber, 1981)
    std::vector<double> residuals(samples.size());
    for (int round = 0; round < most_rounds; ++round) {
        for (std::size_t i = 0; i < samples.size(); ++i)
            residuals[i] = std::abs(samples[i].y - value_at(coefficients, samples[i].t));
        const double scale = std::max(mad_to_std * median_of(residuals), floor);
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double ratio = residuals[i] / (biweight_reach * scale);
            const double inside = std::max(1.0 - ratio * ratio, 0.0);
            const double share =
                loss == Loss::biweight ? inside * inside : scale / std::max(residuals[i], scale);
            samples[i].weight = samples[i].given_weight * share;
        }
        const std::vector<double> before = coefficients;
        weighted_fit(samples, coefficients);
        double moved = 0.0;
        for (std::size_t i = 0; i < before.size(); ++i) moved += std::abs(coefficients[i] - before[i]);
        if (moved < settled_share * floor) return;
    }
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
    return value_at(coefficients, t) + slope(x) * (x - centre - t * half_range);
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
    std::vector<Placed> placed;
    placed.reserve(samples.size());
    for (const Sample& s : samples)
        placed.push_back({(s.x - p.centre) / p.half_range, s.y, s.weight, s.weight});
    weighted_fit(placed, p.coefficients);
    reweighted(placed, Loss::least_absolute, floor, p.coefficients);
    reweighted(placed, Loss::biweight, floor, p.coefficients);
    return p;
}

}  // namespace ridgetally
