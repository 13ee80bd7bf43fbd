#include "disc/neighbour_count.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {
namespace {

/// Chance that a reading is that of another round, or of none.
constexpr double other_round = 0.05;
/// Chance that the crown grows as a flat one does; else any growth up to twice that is as likely.
constexpr double flat = 0.8;
/// How well the growth is then known: rounds of other heights, a crown that cups or ruffles; and a stitch
/// more or less in the round.
constexpr double growth_relative_std = 0.3;
constexpr double growth_std = 1.2;

/// Probabilities of a reading's whole numbers, with the chance that it says nothing of them.
std::vector<double> probabilities(const std::vector<CountScore>& scores) {
    const auto best = std::max_element(scores.begin(), scores.end(),
                                       [](const auto& a, const auto& b) { return a.score < b.score; });
    std::vector<double> result;
    double total = 0.0;
    for (const auto& s : scores) {
        result.push_back(std::exp(s.score - best->score));
        total += result.back();
    }
    for (double& p : result)
        p = (1.0 - other_round) * p / total + other_round / static_cast<double>(scores.size());
    return result;
}

double growth_probability(int grown, double added) {
    const double std = std::hypot(growth_std, growth_relative_std * added);
    const double off = (grown - added) / std;
    const double as_flat = std::exp(-0.5 * off * off) / (std * std::sqrt(2.0 * std::numbers::pi));
    const bool possible = grown >= 0 && grown <= 2.0 * added;
    return flat * as_flat + (possible ? (1.0 - flat) / (2.0 * added + 1.0) : 0.0);
}

std::vector<CountScore> logarithms(const std::vector<CountScore>& counts, const std::vector<double>& sums) {
    std::vector<CountScore> result;
    for (std::size_t i = 0; i < counts.size(); ++i)
        result.push_back({counts[i].stitches, std::log(std::max(sums[i], 1e-300))});
    return result;
}

}  // namespace

double added_when_flat(double stitches, double rim_mm, double row_mm) {
    return stitches * row_mm / (rim_mm - 0.5 * row_mm);
}

NeighbourCounts weighed_together(const NeighbourRounds& rounds) {
    if (rounds.outer.empty() || rounds.inner.empty() || !(rounds.added > 0.0))
        throw std::invalid_argument("weighed_together: nothing to weigh");
    const auto outer = probabilities(rounds.outer);
    const auto inner = probabilities(rounds.inner);
    std::vector<double> outer_sum(outer.size());
    std::vector<double> inner_sum(inner.size());
    for (std::size_t i = 0; i < outer.size(); ++i)
        for (std::size_t j = 0; j < inner.size(); ++j) {
            const int grown = rounds.outer[i].stitches - rounds.inner[j].stitches;
            const double p = outer[i] * inner[j] * growth_probability(grown, rounds.added);
            outer_sum[i] += p;
            inner_sum[j] += p;
        }
    return {logarithms(rounds.outer, outer_sum), logarithms(rounds.inner, inner_sum)};
}

}  // namespace ridgetally
