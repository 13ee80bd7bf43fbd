#include "fabric/colour_histogram.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ridgetally {

void ColourHistogram::smooth_along(std::size_t stride) {
    std::vector<float> result(counts_.size());
    for (std::size_t i = 0; i < counts_.size(); ++i) {
        const std::size_t at = i / stride % bins;
        const float left = at > 0 ? counts_[i - stride] : counts_[i];
        const float right = at + 1 < bins ? counts_[i + stride] : counts_[i];
        result[i] = 0.25F * left + 0.5F * counts_[i] + 0.25F * right;
    }
    counts_ = std::move(result);
}

void ColourHistogram::finish() {
    for (const std::size_t stride : {std::size_t{1}, std::size_t{bins}, std::size_t{bins} * bins})
        smooth_along(stride);
    const double sum = std::max(1.0, std::accumulate(counts_.begin(), counts_.end(), 0.0));
    // A thousandth of the weight is spread evenly, so that a colour never seen is unlikely, not impossible.
    const double floor = 1e-3 / static_cast<double>(counts_.size());
    for (float& count : counts_) count = static_cast<float>(std::log(count / sum + floor));
}

}  // namespace ridgetally
