#include "advice/normal.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_between(double mean, double std, double low, double high) {
    if (high < low || std < 0.0)
        throw std::invalid_argument("limits the wrong way round, or a negative spread");
    if (std == 0.0) return low <= mean && mean <= high ? 1.0 : 0.0;
    return normal_cdf((high - mean) / std) - normal_cdf((low - mean) / std);
}

}  // namespace ridgetally
