#include "core/measured.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace ridgetally {
namespace {

double root_sum_of_squares(const std::vector<Contribution>& parts) {
    double sum = 0.0;
    for (const auto& part : parts) sum += part.relative_std * part.relative_std;
    return std::sqrt(sum);
}

double weight_of(const Measured& part) {
    if (!(part.std > 0.0)) throw std::invalid_argument("weighted mean needs a positive standard uncertainty");
    return 1.0 / (part.std * part.std);
}

struct WeightedSum {
    double values = 0.0;
    double weights = 0.0;

    void add(double weight, double value) {
        values += weight * value;
        weights += weight;
    }
    [[nodiscard]] double mean() const { return values / weights; }
};

double mean_of(const std::vector<Measured>& parts) {
    if (parts.empty()) throw std::invalid_argument("weighted mean of nothing");
    WeightedSum sum;
    for (const auto& part : parts) sum.add(weight_of(part), part.value);
    return sum.mean();
}

double relative_part(const Measured& x, const std::string& name) {
    for (const auto& part : x.contributions)
        if (part.name == name) return part.relative_std;
    return 0.0;
}

/// The measurement less what it shares with others. A part is left at a thousandth of the whole at least, so
/// that measurements with nothing of their own keep a weight.
Measured own_part(const Measured& x, const std::vector<std::string>& shared) {
    double variance = x.std * x.std;
    for (const auto& name : shared) variance -= std::pow(relative_part(x, name) * x.value, 2);
    return {x.value, std::sqrt(std::max(variance, 1e-6 * x.std * x.std)), {}};
}

std::vector<Measured> own_parts(const std::vector<Measured>& parts, const std::vector<std::string>& shared) {
    std::vector<Measured> result;
    for (const auto& part : parts) result.push_back(own_part(part, shared));
    return result;
}

}  // namespace

double Measured::relative_std() const { return value != 0.0 ? std / std::abs(value) : 0.0; }

Measured measured(double value, std::vector<Contribution> contributions) {
    const double relative = root_sum_of_squares(contributions);
    return {value, relative * std::abs(value), std::move(contributions)};
}

Measured exact(double value) { return {value, 0.0, {}}; }

Measured scaled(const Measured& x, double factor) {
    return {x.value * factor, x.std * std::abs(factor), x.contributions};
}

Measured reciprocal(double numerator, const Measured& x) {
    if (x.value == 0.0) throw std::domain_error("reciprocal of zero");
    const double value = numerator / x.value;
    return {value, std::abs(value) * x.relative_std(), x.contributions};
}

Measured with(const Measured& x, const std::vector<Contribution>& more) {
    Measured result = x;
    double added = 0.0;
    for (const auto& part : more) {
        added += part.relative_std * part.relative_std;
        const auto same = std::find_if(result.contributions.begin(), result.contributions.end(),
                                       [&](const Contribution& known) { return known.name == part.name; });
        if (same == result.contributions.end()) {
            result.contributions.push_back(part);
        } else {
            same->relative_std = std::hypot(same->relative_std, part.relative_std);
        }
    }
    result.std = std::hypot(x.std, std::sqrt(added) * std::abs(x.value));
    return result;
}

double birge_ratio(const std::vector<Measured>& parts, const std::vector<std::string>& shared) {
    if (parts.size() < 2) return 1.0;
    const auto own = own_parts(parts, shared);
    const double mean = mean_of(own);
    double chi_squared = 0.0;
    for (const auto& part : own) chi_squared += weight_of(part) * (part.value - mean) * (part.value - mean);
    return std::sqrt(chi_squared / static_cast<double>(own.size() - 1));
}

Measured weighted_mean(const std::vector<Measured>& parts, const std::vector<std::string>& shared) {
    const double mean = mean_of(parts);
    WeightedSum own_variance;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double weight = weight_of(parts[i]);
        own_variance.add(weight, weight * std::pow(own_part(parts[i], shared).std, 2));
    }
    const double own = std::sqrt(own_variance.values) / own_variance.weights;
    const double scale = mean != 0.0 ? 1.0 / std::abs(mean) : 0.0;
    std::vector<Contribution> contributions{
        {"combined photos", own * std::max(1.0, birge_ratio(parts, shared)) * scale}};
    for (const auto& name : shared) {
        WeightedSum square;
        for (const auto& part : parts) square.add(weight_of(part), std::pow(relative_part(part, name), 2));
        if (square.values > 0.0) contributions.push_back({name, std::sqrt(square.mean())});
    }
    return measured(mean, std::move(contributions));
}

}  // namespace ridgetally
