#include "disc/round_count.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {
namespace {

// Chosen on 117 drawn crowns, a tenth of them with tall and short rounds in turn: on a coarse grid of six of
// them the likelihood of the true numbers hardly changed about these.

/// Standard deviation of a reading that neither lost nor found a round.
constexpr double reading_std = 0.2;
/// What all readings of a crown have in common: how wide its start ring is.
constexpr double ring_std = 0.2;
/// Chance that a reading is right; that it lost one round, falling by half with each further one; that it
/// found one or two too many; that it is anything.
constexpr double right = 0.8;
constexpr double lost_one = 0.08;
constexpr double found_one = 0.03;
constexpr double found_two = 0.015;
constexpr double anything = 0.01;
constexpr double anything_width = 10.0;
constexpr int most_lost = 6;
/// Directions go wrong for a common cause: more of them count as so many independent ones.
constexpr double independent_readings = 1.5;

/// Chance that every round adds as many stitches as the first has, and what the last one may then be off.
constexpr double regular = 0.8;
constexpr double regular_std = 1.2;
/// Stitches added in a round over 2 pi height over width, as logarithms: of a regular crown, of any.
constexpr double flat_log_std = 0.16;
constexpr double any_log_std = 0.3;
/// Stitches of a first round (common practice, no source).
constexpr int least_first = 4;
constexpr int most_first = 16;

double normal(double x, double std) {
    return std::exp(-0.5 * (x / std) * (x / std)) / (std * std::sqrt(2.0 * std::numbers::pi));
}

/// Likelihood of a reading that should be `off` smaller.
double reading_likelihood(double off) {
    double sum = right * normal(off, reading_std) + found_one * normal(off - 1.0, reading_std) +
                 found_two * normal(off - 2.0, reading_std) + anything / anything_width;
    double lost = lost_one;
    for (int k = 1; k <= most_lost; ++k, lost *= 0.5) sum += lost * normal(off + k, reading_std);
    return sum;
}

double log_readings(const std::vector<double>& readings, int rounds) {
    const double weight = std::min(1.0, independent_readings / static_cast<double>(readings.size()));
    double total = 0.0;
    constexpr double step = 0.5 * ring_std;
    for (int k = -6; k <= 6; ++k) {
        double log_sum = -0.5 * std::pow(k * step / ring_std, 2);
        for (const double x : readings)
            log_sum += weight * std::log(reading_likelihood(x - rounds - k * step));
        total += std::exp(log_sum);
    }
    return std::log(total);
}

double log_stitches(const RoundEvidence& evidence, int rounds) {
    const double last = evidence.stitches.value;
    const double off_by = std::hypot(regular_std, 0.25 * (evidence.stitches.most - evidence.stitches.least));
    const auto flat_log = [&](double added) {
        return std::log(added / (2.0 * std::numbers::pi * *evidence.height_over_width));
    };
    double weights = 0.0;
    double even = 0.0;
    for (int added = least_first; added <= most_first; ++added) {
        const double weight = evidence.height_over_width ? normal(flat_log(added), flat_log_std) : 1.0;
        weights += weight;
        even += weight * normal(last - rounds * added, off_by);
    }
    const double added = last / rounds;
    double uneven = 1e-6;
    if (evidence.height_over_width) {
        uneven += normal(flat_log(added), any_log_std);
    } else if (added >= least_first && added <= most_first) {
        uneven += 1.0 / std::log(static_cast<double>(most_first) / least_first);
    }
    return std::log(regular * even / weights + (1.0 - regular) * uneven / last);
}

}  // namespace

WholeCount likely_rounds(const RoundEvidence& evidence) {
    if (evidence.readings.empty() || evidence.stitches.value < 1)
        throw std::invalid_argument("likely_rounds: no readings or no stitches");
    const double largest = *std::max_element(evidence.readings.begin(), evidence.readings.end());
    const int most = std::max(3, static_cast<int>(std::ceil(largest)) + most_lost);
    std::vector<CountScore> scores;
    for (int rounds = 1; rounds <= most; ++rounds)
        scores.push_back({rounds, log_readings(evidence.readings, rounds) + log_stitches(evidence, rounds)});
    return most_likely(scores, 1.0);
}

}  // namespace ridgetally
