#include "disc/whole_count.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace ridgetally {
namespace {

constexpr double wanted = 0.95;

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

}  // namespace ridgetally
