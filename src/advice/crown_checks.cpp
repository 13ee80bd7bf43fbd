#include "advice/crown_checks.h"

#include <cmath>
#include <numbers>
#include <sstream>

#include "advice/normal.h"

namespace ridgetally {
namespace {

/// A verdict is sure where the other ones have less than this chance together: that of the stated intervals.
constexpr double sure = 0.95;
/// Less than this share too many or too few stitches lies flat: crochet gives that much (common practice, no
/// source).
constexpr double flat_slack = 0.04;
/// Stitch width is known from a flat swatch: work in the round often comes out some per cent wider or
/// narrower (common practice, no source).
constexpr double round_work_std = 0.03;

const std::string larger_hook = ": start over with a larger hook";
const std::string smaller_hook = ": start over with a smaller hook";

std::string cm(double mm) {
    std::ostringstream text;
    text.setf(std::ios::fixed);
    text.precision(1);
    text << mm / 10.0 << " cm";
    return text.str();
}

CrownCheck length_check(const std::string& what, const Measured& mm, const LengthRange& range,
                        const std::string& larger, const std::string& smaller) {
    CrownCheck check{
        what, CheckVerdict::unsure, normal_between(mm.value, mm.std, range.low_mm, range.high_mm), {}};
    const double below = normal_cdf((range.low_mm - mm.value) / std::max(mm.std, 1e-9));
    const double above = 1.0 - check.chance - below;
    const std::string wanted = cm(range.low_mm) + " to " + cm(range.high_mm);
    if (check.chance > sure) {
        check.verdict = CheckVerdict::met;
        check.message = cm(mm.value) + " is within " + wanted;
    } else if (below > sure) {
        check.verdict = CheckVerdict::too_small;
        check.message = cm(mm.value) + " is under " + wanted + larger;
    } else if (above > sure) {
        check.verdict = CheckVerdict::too_large;
        check.message = cm(mm.value) + " is over " + wanted + smaller;
    } else {
        check.message = cm(mm.value) + " against " + wanted +
                        ": too close to tell from this photo; measure once more, from straight above";
    }
    return check;
}

CrownCheck stitch_check(const CrownFigures& crown, int wanted) {
    const int counted = static_cast<int>(crown.last_round_stitches->value);
    CrownCheck check{"stitches", CheckVerdict::unsure, 0.0, {}};
    const std::string against =
        std::to_string(counted) + " stitches in the last round, the pattern has " + std::to_string(wanted);
    if (wanted < crown.least_stitches || wanted > crown.most_stitches) {
        check.verdict = counted < wanted ? CheckVerdict::too_small : CheckVerdict::too_large;
        const int off = std::abs(counted - wanted);
        check.message = against + ": " + std::to_string(off) + (counted < wanted ? " too few" : " too many");
    } else if (crown.least_stitches == crown.most_stitches) {
        check.verdict = CheckVerdict::met;
        check.chance = 1.0;
        check.message = against;
    } else {
        check.chance = 0.5;
        check.message = against + "; it may be " + std::to_string(crown.least_stitches) + " to " +
                        std::to_string(crown.most_stitches) + ": count by eye";
    }
    return check;
}

/// Stitches times their width against the way round the middle of the last round.
CrownCheck flatness_check(const CrownFigures& crown, double stitch_width_mm) {
    const double row_mm = crown.row_height_mm ? crown.row_height_mm->value : 0.0;
    const double way_mm = std::numbers::pi * (crown.diameter_mm.value - row_mm);
    const double ratio = crown.last_round_stitches->value * stitch_width_mm / way_mm;
    const double std = ratio * std::sqrt(std::pow(crown.diameter_mm.relative_std(), 2) +
                                         std::pow(crown.last_round_stitches->relative_std(), 2) +
                                         round_work_std * round_work_std);
    CrownCheck check{
        "flatness", CheckVerdict::unsure, normal_between(ratio, std, 1.0 - flat_slack, 1.0 + flat_slack), {}};
    const int off = static_cast<int>(std::lround(
        std::abs(crown.last_round_stitches->value - way_mm / stitch_width_mm) / std::max(1, crown.rounds)));
    const std::string change = off == 0 ? "one now and then" : std::to_string(off) + " a round";
    if (1.0 - normal_cdf((1.0 + flat_slack - ratio) / std) > sure) {
        check.verdict = CheckVerdict::ruffles;
        check.message = "more stitches than the edge has room for, it ruffles: leave out " + change;
    } else if (normal_cdf((1.0 - flat_slack - ratio) / std) > sure) {
        check.verdict = CheckVerdict::cups;
        check.message = "fewer stitches than the edge needs, it cups: add " + change;
    } else if (std::abs(ratio - 1.0) < flat_slack) {
        check.verdict = CheckVerdict::met;
        check.message = "stitches and edge agree: it lies flat";
    } else {
        check.message = "stitches and edge differ by less than can be told from one photo";
    }
    return check;
}

}  // namespace

std::string_view key_of(CheckVerdict verdict) {
    switch (verdict) {
        case CheckVerdict::met:
            return "met";
        case CheckVerdict::too_small:
            return "too-small";
        case CheckVerdict::too_large:
            return "too-large";
        case CheckVerdict::ruffles:
            return "ruffles";
        case CheckVerdict::cups:
            return "cups";
        case CheckVerdict::unsure:
            return "unsure";
    }
    return "unsure";
}

double flat_increase(double row_height_mm, double stitch_width_mm) {
    return 2.0 * std::numbers::pi * row_height_mm / stitch_width_mm;
}

CrownCheck check_size(const std::string& what, const Measured& mm, const LengthRange& wanted) {
    return length_check(what, mm, wanted, "", "");
}

std::vector<CrownCheck> check_crown(const CrownFigures& crown, const CrownWishes& wishes) {
    std::vector<CrownCheck> checks;
    if (wishes.diameter)
        checks.push_back(
            length_check("diameter", crown.diameter_mm, *wishes.diameter, larger_hook, smaller_hook));
    if (wishes.last_round_stitches && crown.last_round_stitches)
        checks.push_back(stitch_check(crown, *wishes.last_round_stitches));
    if (wishes.stitch_width_mm && crown.last_round_stitches)
        checks.push_back(flatness_check(crown, *wishes.stitch_width_mm));
    for (const auto& size : crown.round_sizes) {
        if (size.round < 1 || size.round > static_cast<int>(wishes.plan_mm.size())) continue;
        const double mm = wishes.plan_mm[static_cast<std::size_t>(size.round - 1)];
        checks.push_back(
            length_check("round " + std::to_string(size.round), size.diameter_mm,
                         {mm * (1.0 - single_length_tolerance), mm * (1.0 + single_length_tolerance)},
                         larger_hook, smaller_hook));
    }
    return checks;
}

}  // namespace ridgetally
