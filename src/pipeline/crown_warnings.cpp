#include "pipeline/crown_warnings.h"

#include <cmath>
#include <string>

namespace ridgetally {
namespace {

std::vector<Warning> outline_warnings(const DiscOutline& outline) {
    std::vector<Warning> warnings;
    constexpr double worth_saying = 0.01;
    const double hidden = outline.part_of(RimPlace::hidden);
    if (hidden > worth_saying) {
        warnings.push_back({"edge-hidden", std::to_string(std::lround(100.0 * hidden)) +
                                               " % of the crown's edge is outside the photo or under "
                                               "something; it was filled in from the rest"});
    }
    return warnings;
}

/// The phone was so near that the height of the rim, which is not seen, leaves more than a per cent and a
/// half open at 95 of 100: the figure that was asked of diameters.
std::vector<Warning> distance_warnings(const CrownResult& result) {
    constexpr double most_height_std = 0.015 / coverage_factor_95;
    double height = 0.0;
    for (const auto& part : result.diameter_mm.contributions) {
        if (part.name == "height") height = part.relative_std;
    }
    const auto distance_mm = result.scale.camera_distance_mm;
    if (height <= most_height_std || distance_mm <= 0.0) return {};
    constexpr double step_cm = 5.0;
    const double enough_cm = step_cm * std::ceil(0.1 * distance_mm * height / most_height_std / step_cm);
    return {{"too-near", "how high the crown's edge stands is not seen, and from " +
                             std::to_string(std::lround(0.1 * distance_mm)) +
                             " cm away its diameter hangs on that: hold the phone " +
                             std::to_string(std::lround(enough_cm)) +
                             " cm away or more, or tell the height with --thickness"}};
}

std::vector<Warning> count_warnings(const CrownResult& result) {
    std::vector<Warning> warnings;
    const auto unsure = [](const std::optional<CountedWhole>& c) { return c && c->least != c->most; };
    const auto range = [](const CountedWhole& c) {
        return std::to_string(c.least) + " to " + std::to_string(c.most);
    };
    if (unsure(result.rounds)) {
        warnings.push_back(
            {"rounds-unsure", "the crown may have " + range(*result.rounds) + " rounds: count them by eye"});
    }
    if (unsure(result.last_round_stitches)) {
        warnings.push_back({"stitches-unsure", "the last round may have " +
                                                   range(*result.last_round_stitches) +
                                                   " stitches: come nearer, or count them by eye"});
    }
    return warnings;
}

}  // namespace

std::vector<Warning> crown_warnings(const DiscOutline& outline, const CrownResult& result) {
    std::vector<Warning> warnings;
    for (const auto& more : {distance_warnings(result), outline_warnings(outline), count_warnings(result)})
        warnings.insert(warnings.end(), more.begin(), more.end());
    return warnings;
}

}  // namespace ridgetally
