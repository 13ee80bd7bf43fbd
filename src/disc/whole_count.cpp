#include "disc/whole_count.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {
namespace {

constexpr double wanted = 0.95;

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

}  // namespace

WholeCount most_likely(const std::vector<CountScore>& scores, double sharpness) {
    if (scores.empty()) throw std::invalid_argument("most_likely: no scores");
    const auto best = std::max_element(scores.begin(), scores.end(),
                                       [](const auto& a, const auto& b) { return a.score < b.score; });
    std::vector<double> chance;
    double total = 0.0;
    for (const auto& s : scores) {
        chance.push_back(std::exp(sharpness * (s.score - best->score)));
        total += chance.back();
    }
    auto low = static_cast<std::size_t>(best - scores.begin());
    std::size_t high = low;
    double held = chance[low];
    while (held < wanted * total) {
        const double below = low > 0 ? chance[low - 1] : -1.0;
        const double above = high + 1 < chance.size() ? chance[high + 1] : -1.0;
        held += std::max(below, above);
        if (below > above) {
            --low;
        } else {
            ++high;
        }
    }
    return {best->stitches, scores[low].stitches, scores[high].stitches, 1.0 / total};
}

WholeCount rounded_reading(std::vector<double> readings, double std) {
    if (readings.empty()) throw std::invalid_argument("rounded_reading: no readings");
    std::sort(readings.begin(), readings.end());
    const double middle = 0.5 * (readings[readings.size() / 2] + readings[(readings.size() - 1) / 2]);
    const double whole = std::round(middle);
    const double above = 1.0 - normal_below((whole + 0.5 - middle) / std);
    const double below = normal_below((whole - 0.5 - middle) / std);
    const double spare = 0.5 * (1.0 - wanted);
    const int value = static_cast<int>(whole);
    return {value, value - (below > spare ? 1 : 0), value + (above > spare ? 1 : 0), 1.0 - above - below};
}

}  // namespace ridgetally
