#pragma once

#include <vector>

#include "disc/stitch_count.h"

namespace ridgetally {

/// A whole number that was counted, and those that cannot be excluded (95 of 100).
struct WholeCount {
    int value = 0;
    int least = 0;
    int most = 0;
    double chance = 0.0;  ///< that `value` is right
};

/// The most likely of the whole numbers scored and the shortest run around it that holds 95 of 100; scores
/// are first spread by `sharpness`, at which they were found to be calibrated.
[[nodiscard]] WholeCount most_likely(const std::vector<CountScore>& scores, double sharpness);

}  // namespace ridgetally
