#include <cmath>
#include <stdexcept>

#include "pipeline/measure_swatch.h"

namespace ridgetally {
namespace {

/// Photos of one swatch whose gauges scatter by more than twice their own uncertainty are not of one swatch,
/// or one of them lies crooked (two-sided 95 % point of a Birge ratio for few photos is about 2).
constexpr double disagreement = 2.0;

std::optional<Measured> combined(const std::vector<SwatchResult>& results,
                                 std::optional<Measured> SwatchResult::*member) {
    std::vector<Measured> parts;
    for (const auto& result : results) {
        if (result.*member) parts.push_back(*(result.*member));
    }
    if (parts.empty()) return std::nullopt;
    return weighted_mean(parts);
}

}  // namespace

SwatchResult combine(const std::vector<SwatchResult>& results) {
    if (results.empty()) throw std::invalid_argument("combine: no results");
    SwatchResult all = results.front();
    if (results.size() == 1) return all;
    std::vector<Measured> stitches;
    std::vector<Measured> rows;
    for (const auto& result : results) {
        all.photos.push_back(result.photo);
        stitches.push_back(result.stitches_per_10cm);
        if (result.rows_per_10cm) rows.push_back(*result.rows_per_10cm);
        if (&result != &results.front())
            all.warnings.insert(all.warnings.end(), result.warnings.begin(), result.warnings.end());
    }
    all.stitches_per_10cm = weighted_mean(stitches);
    all.rows_per_10cm = combined(results, &SwatchResult::rows_per_10cm);
    all.width_mm = combined(results, &SwatchResult::width_mm);
    all.height_mm = combined(results, &SwatchResult::height_mm);
    if (birge_ratio(stitches) > disagreement || birge_ratio(rows) > disagreement) {
        all.warnings.push_back({"photos-disagree",
                                "the photos give different gauges: check that all show the same swatch lying "
                                "flat and unstretched"});
    }
    return all;
}

}  // namespace ridgetally
