#include "disc/round_stitches.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "disc/neighbour_count.h"

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

std::vector<CountScore> scored(const RoundReading& round, int least, int most) {
    // Whatever is wrong with a rim that is partly guessed is wrong of its count too: of 257 drawn crowns five
    // had a count outside its interval, four of them with over a fifth of the rim out of the photo.
    auto scores = weighed(score_counts(round.phase, least, most), round.expected);
    for (auto& s : scores) s.score *= sharpness * round.seen * round.seen;
    return scores;
}

}  // namespace

RoundReading read_round(ClosedPhase phase, double expected, double seen) {
    RoundReading read{{}, std::move(phase), expected, seen};
    for (const double reach : {0.3, 0.5}) {
        const int least = std::max(4, static_cast<int>(expected * (1.0 - reach)));
        const int most = static_cast<int>(std::ceil(expected * (1.0 + reach)));
        read.scores = scored(read, least, most);
        const WholeCount count = most_likely(read.scores, 1.0);
        if (count.least > least && count.most < most) break;
    }
    return read;
}

void weigh_neighbours(std::vector<RoundReading>& rounds, double rim_mm, double row_mm) {
    if (rounds.size() < 2) return;
    for (std::size_t k = 0; k < 2; ++k)
        if (far_from_scale(most_likely(rounds[k].scores, 1.0).value, rounds[k].expected)) return;
    const double added = added_when_flat(most_likely(rounds[0].scores, 1.0).value, rim_mm, row_mm);
    NeighbourCounts weighed = weighed_together({rounds[0].scores, rounds[1].scores, added});
    rounds[0].scores = std::move(weighed.outer);
    rounds[1].scores = std::move(weighed.inner);
}

WholeCount counted(const RoundReading& round) {
    const WholeCount count = most_likely(round.scores, 1.0);
    if (!far_from_scale(count.value, round.expected)) return count;
    const WholeCount pairs = most_likely(scored(round, 2 * count.value - 2, 2 * count.value + 2), 1.0);
    return with_scale(far_from_scale(pairs.value, round.expected) ? count : pairs, count.value,
                      round.expected);
}

}  // namespace ridgetally
