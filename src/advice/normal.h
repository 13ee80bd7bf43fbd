#pragma once

namespace ridgetally {

/// Distribution function of the standard normal distribution.
[[nodiscard]] double normal_cdf(double z);

/// Probability that a normal variable lies between `low` and `high`; for std 0, whether the mean does (1 or
/// 0). Throws std::invalid_argument where high < low or std < 0.
[[nodiscard]] double normal_between(double mean, double std, double low, double high);

}  // namespace ridgetally
