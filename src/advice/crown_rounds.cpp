#include "advice/crown_rounds.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {
namespace {

/// A group with `plain` plain stitches; in even rounds half of them stand before the increase.
IncreaseGroup group_of(int plain, int times, int round) {
    const int before = round % 2 == 0 ? plain / 2 : plain;
    return {before, plain - before, times};
}

std::vector<IncreaseGroup> groups_of(int plain, int increases, int round) {
    if (increases == 0) return {};
    std::vector<IncreaseGroup> groups;
    const int longer = plain % increases;
    if (longer > 0) groups.push_back(group_of(plain / increases + 1, longer, round));
    if (longer < increases) groups.push_back(group_of(plain / increases, increases - longer, round));
    return groups;
}

}  // namespace

Measured flat_increase(const Measured& stitch_width_mm, const Measured& row_height_mm) {
    const double value = 2.0 * std::numbers::pi * row_height_mm.value / stitch_width_mm.value;
    return measured(value, {{"stitch width", stitch_width_mm.relative_std()},
                            {"row height", row_height_mm.relative_std()}});
}

std::vector<int> round_counts(double added, int stitches) {
    if (!(added >= 1.0) || stitches < 1) throw std::invalid_argument("a round adds at least one stitch");
    std::vector<int> counts;
    do {
        const double flat = std::round(static_cast<double>(counts.size() + 1) * added);
        counts.push_back(static_cast<int>(std::min(flat, static_cast<double>(stitches))));
    } while (counts.back() < stitches);
    return counts;
}

std::vector<CrownRound> crown_rounds(const std::vector<int>& counts, const Measured& row_height_mm) {
    std::vector<CrownRound> rounds;
    int worked_into = 0;
    for (const int stitches : counts) {
        CrownRound round;
        round.number = static_cast<int>(rounds.size()) + 1;
        round.stitches = stitches;
        round.diameter_mm = scaled(row_height_mm, 2.0 * round.number);
        if (worked_into > 0) {
            round.into_plain = stitches / worked_into;
            round.into_increase = round.into_plain + 1;
            const int increases = stitches % worked_into;
            round.groups = groups_of(worked_into - increases, increases, round.number);
        }
        rounds.push_back(round);
        worked_into = stitches;
    }
    return rounds;
}

}  // namespace ridgetally
