#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "core/stitch.h"

namespace ridgetally {

/// What another method believes the fabric to be, on the fabric's plane; the plain search keeps the last word
/// on how long a period is, a proposal on which period is a stitch and which a row.
struct Proposal {
    double row_direction_rad = 0.0;  ///< clockwise
    double stitch_pitch_mm = 0.0;
    double row_pitch_mm = 0.0;
    double weight = 0.0;  ///< 0 to 1: how much it believes in this reading
    std::array<double, stitch_family_count>
        family{};        ///< probabilities, in the order of StitchFamily; may sum to less than 1
    double round = 0.5;  ///< probability of work in rounds
};

/// The proposal of most weight, null where there is none.
[[nodiscard]] inline const Proposal* strongest_of(const std::vector<Proposal>& proposals) {
    const auto most = std::max_element(proposals.begin(), proposals.end(),
                                       [](const auto& a, const auto& b) { return a.weight < b.weight; });
    return most == proposals.end() ? nullptr : &*most;
}

}  // namespace ridgetally
