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

/// What was asked of diameters at 95 of 100.
constexpr double asked_of_diameters = 0.015;

double diameter_part(const CrownResult& result, const std::string& name) {
    double found = 0.0;
    for (const auto& part : result.diameter_mm.contributions) {
        if (part.name == name) found = part.relative_std;
    }
    return found;
}

/// The phone was so near that the height of the rim, which is not seen, leaves more open than was asked.
std::vector<Warning> distance_warnings(const CrownResult& result) {
    constexpr double most_height_std = asked_of_diameters / coverage_factor_95;
    const double height = diameter_part(result, "height");
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

/// The photo does not tell its focal length, so that the distance to the camera is a guess, and what that
/// leaves open of the diameter is more than half of what was asked.
std::vector<Warning> focal_warnings(const CrownResult& result) {
    constexpr double most_focal_std = 0.5 * asked_of_diameters / coverage_factor_95;
    if (result.scale.focal_source == FocalSource::exif ||
        diameter_part(result, "focal length") <= most_focal_std)
        return {};
    return {{"focal-length-assumed",
             "the photo does not say how far its lens was zoomed, so how far away the phone was is a guess: "
             "give the camera's own file, neither cropped nor sent through a messenger, or hold the phone "
             "further away"}};
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
    for (const auto& more : {distance_warnings(result), focal_warnings(result), outline_warnings(outline),
                             count_warnings(result)})
        warnings.insert(warnings.end(), more.begin(), more.end());
    return warnings;
}

}  // namespace ridgetally
