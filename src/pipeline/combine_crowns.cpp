#include <algorithm>
#include <map>

#include "pipeline/combine_photos.h"
#include "pipeline/measure_crown.h"

namespace ridgetally {
namespace {

using Member = std::optional<CountedWhole> CrownResult::*;

/// The count with the largest chance over the photos that read one. Its range is that of the photos that
/// agree with it, or of all where they do not.
std::optional<CountedWhole> combined_count(const std::vector<CrownResult>& results, Member member) {
    std::map<int, double> chances;
    for (const auto& result : results) {
        if (const auto& count = result.*member)
            chances[static_cast<int>(count->count.value)] += count->chance;
    }
    if (chances.empty()) return std::nullopt;
    const auto likeliest = std::max_element(chances.begin(), chances.end(),
                                            [](const auto& a, const auto& b) { return a.second < b.second; });
    std::optional<CountedWhole> best;
    for (const auto& result : results) {
        const auto& count = result.*member;
        if (!count || static_cast<int>(count->count.value) != likeliest->first) continue;
        if (!best || count->chance > best->chance) best = count;
    }
    if (chances.size() == 1) return best;
    best->least = std::min(best->least, chances.begin()->first);
    best->most = std::max(best->most, chances.rbegin()->first);
    best->count.std = (std::max(best->count.value - best->least, best->most - best->count.value) + 0.49) /
                      coverage_factor_95;
    return best;
}

Measured combined_size(const std::vector<CrownResult>& results, Measured CrownResult::*member) {
    std::vector<Measured> parts;
    for (const auto& result : results) parts.push_back(result.*member);
    return weighted_mean(parts, errors_of_one_piece());
}

}  // namespace

CrownResult combine_crowns(const std::vector<CrownResult>& results) {
    CrownResult all = gathered(results);
    if (results.size() == 1) return all;
    std::vector<Measured> diameters;
    for (const auto& result : results) diameters.push_back(result.diameter_mm);
    all.diameter_mm = combined_size(results, &CrownResult::diameter_mm);
    all.diameter_min_mm = combined_size(results, &CrownResult::diameter_min_mm);
    all.diameter_max_mm = combined_size(results, &CrownResult::diameter_max_mm);
    all.rounds = combined_count(results, &CrownResult::rounds);
    all.last_round_stitches = combined_count(results, &CrownResult::last_round_stitches);
    const bool other_count = std::any_of(results.begin(), results.end(), [&](const CrownResult& result) {
        const auto& count = result.last_round_stitches;
        return count && all.last_round_stitches &&
               (all.last_round_stitches->count.value < count->least ||
                all.last_round_stitches->count.value > count->most);
    });
    if (birge_ratio(diameters, errors_of_one_piece()) > most_birge_ratio || other_count) {
        all.warnings.push_back(
            {"photos-disagree",
             "the photos give different crowns: check that all show the same one lying flat "
             "and unstretched"});
    }
    return all;
}

}  // namespace ridgetally
