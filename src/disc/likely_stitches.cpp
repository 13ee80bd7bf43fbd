#include "disc/likely_stitches.h"

#include <algorithm>
#include <cmath>

namespace ridgetally {
namespace {

/// Differences of scores are worth so much as logarithms of odds (most likely value on the same photos, of
/// 0.15 to 1.3).
constexpr double sharpness = 0.5;
/// What the scale says of the number of stitches: of 257 drawn crowns the middle one had 2.5 per cent more
/// than the pieces of its rim had made expect, two of three were within 5 per cent of that, all within 20. A
/// logarithm that follows Student's law with four degrees of freedom.
constexpr double scale_bias = 1.025;
constexpr double scale_log_std = 0.06;

/// The scores with what the scale says of them.
std::vector<CountScore> weighed(std::vector<CountScore> scores, double expected) {
    for (auto& s : scores) {
        const double u = std::log(s.stitches / (scale_bias * expected)) / scale_log_std;
        s.score -= 2.5 * std::log1p(u * u / 4.0) / sharpness;
    }
    return scores;
}

bool far_from_scale(int count, double expected) {
    constexpr double far = 0.3;  // of 257 drawn crowns the scale was never off by more than 0.23
    return std::abs(std::log(count / (scale_bias * expected))) >= far;
}

/// Where what was counted and the scale are far apart (pairs of stitches counted as one, as a rule) neither
/// can be excluded.
WholeCount with_scale(WholeCount count, int counted, double expected) {
    constexpr double good_to = 0.15;  // nineteen of twenty
    count.least = std::min({count.least, counted, static_cast<int>(expected * (1.0 - good_to))});
    count.most = std::max({count.most, counted, static_cast<int>(std::ceil(expected * (1.0 + good_to)))});
    count.chance = std::min(count.chance, 0.5);
    return count;
}

}  // namespace

WholeCount likely_stitches(const ClosedPhase& phase, double expected, double seen_part) {
    // Whatever is wrong with a rim that is partly guessed is wrong of its count too: of 257 drawn crowns
    // five had a count outside its interval, four of them with over a fifth of the rim out of the photo.
    const auto among = [&](int least, int most) {
        return most_likely(weighed(score_counts(phase, least, most), expected),
                           sharpness * seen_part * seen_part);
    };
    WholeCount count;
    for (const double reach : {0.2, 0.5}) {
        const int least = std::max(4, static_cast<int>(expected * (1.0 - reach)));
        const int most = static_cast<int>(std::ceil(expected * (1.0 + reach)));
        count = among(least, most);
        if (count.least > least && count.most < most) break;
    }
    if (!far_from_scale(count.value, expected)) return count;
    const WholeCount pairs = among(2 * count.value - 2, 2 * count.value + 2);
    return with_scale(far_from_scale(pairs.value, expected) ? count : pairs, count.value, expected);
}

std::vector<WholeCount> with_even_growth(int rounds, std::vector<WholeCount> stitches) {
    for (int k = 1; k < std::min(rounds, static_cast<int>(stitches.size())); ++k) {
        const double even = static_cast<double>(stitches.front().value) * (rounds - k) / rounds;
        WholeCount& count = stitches[static_cast<std::size_t>(k)];
        const bool held = count.least <= std::ceil(even) && count.most >= std::floor(even);
        if (!held) count.chance = std::min(count.chance, 0.5);
        count.least = std::min(count.least, static_cast<int>(std::floor(even)));
        count.most = std::max(count.most, static_cast<int>(std::ceil(even)));
    }
    return stitches;
}

}  // namespace ridgetally
