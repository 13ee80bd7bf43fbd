#pragma once

#include <algorithm>
#include <vector>

namespace ridgetally {

/// The middle one by size, the upper of the two where their number is even; 0 for an empty list.
[[nodiscard]] inline double median_of(std::vector<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Median absolute deviation to standard deviation, under the normal law (Huber, Robust Statistics, 1981,
/// section 5.1): 1 over its 75 % point.
inline constexpr double mad_to_std = 1.4826;

}  // namespace ridgetally
