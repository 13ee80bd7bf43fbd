#include "pipeline/combine_photos.h"
#include "pipeline/measure_swatch.h"

namespace ridgetally {
namespace {

std::optional<Measured> combined(const std::vector<SwatchResult>& results,
                                 std::optional<Measured> SwatchResult::*member) {
    std::vector<Measured> parts;
    for (const auto& result : results) {
        if (result.*member) parts.push_back(*(result.*member));
    }
    if (parts.empty()) return std::nullopt;
    return weighted_mean(parts, errors_of_one_piece());
}

}  // namespace

SwatchResult combine(const std::vector<SwatchResult>& results) {
    SwatchResult all = gathered(results);
    if (results.size() == 1) return all;
    std::vector<Measured> stitches;
    std::vector<Measured> rows;
    for (const auto& result : results) {
        stitches.push_back(result.stitches_per_10cm);
        if (result.rows_per_10cm) rows.push_back(*result.rows_per_10cm);
    }
    all.stitches_per_10cm = weighted_mean(stitches, errors_of_one_piece());
    all.rows_per_10cm = combined(results, &SwatchResult::rows_per_10cm);
    all.width_mm = combined(results, &SwatchResult::width_mm);
    all.height_mm = combined(results, &SwatchResult::height_mm);
    if (birge_ratio(stitches, errors_of_one_piece()) > most_birge_ratio ||
        birge_ratio(rows, errors_of_one_piece()) > most_birge_ratio) {
        all.warnings.push_back({"photos-disagree",
                                "the photos give different gauges: check that all show the same swatch lying "
                                "flat and unstretched"});
    }
    return all;
}

}  // namespace ridgetally
