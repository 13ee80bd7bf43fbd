#pragma once

#include <algorithm>
#include <vector>

namespace ridgetally::blackbox {

/// The value below which the part `p` of the others lies. Throws std::out_of_range where there are none.
[[nodiscard]] inline double quantile(std::vector<double> values, double p) {
    std::sort(values.begin(), values.end());
    return values.at(static_cast<std::size_t>(p * static_cast<double>(values.size() - 1)));
}

}  // namespace ridgetally::blackbox
