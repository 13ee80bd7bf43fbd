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

double mean_of(const std::vector<Measured>& parts) {
    if (parts.empty()) throw std::invalid_argument("weighted mean of nothing");
    double sum = 0.0;
    double weights = 0.0;
    for (const auto& part : parts) {
        sum += weight_of(part) * part.value;
        weights += weight_of(part);
    }
    return sum / weights;
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

double birge_ratio(const std::vector<Measured>& parts) {
    if (parts.size() < 2) return 1.0;
    const double mean = mean_of(parts);
    double chi_squared = 0.0;
    for (const auto& part : parts) chi_squared += weight_of(part) * (part.value - mean) * (part.value - mean);
    return std::sqrt(chi_squared / static_cast<double>(parts.size() - 1));
}

Measured weighted_mean(const std::vector<Measured>& parts) {
    const double mean = mean_of(parts);
    double weights = 0.0;
    for (const auto& part : parts) weights += weight_of(part);
    const double std = std::sqrt(1.0 / weights) * std::max(1.0, birge_ratio(parts));
    const double relative = mean != 0.0 ? std / std::abs(mean) : 0.0;
    return {mean, std, {{"combined photos", relative}}};
}

}  // namespace ridgetally
