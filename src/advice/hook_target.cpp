#include <cmath>

#include "advice/hook_advice.h"
#include "advice/stitch_shape.h"
#include "core/decimal.h"

namespace ridgetally {
namespace {

/// Per cent.
std::string percent(double share) { return fixed(100.0 * std::abs(share), 1) + " %"; }

bool is_knitting(const HookRequest& request) { return request.stitch == StitchFamily::stockinette; }

double per_4in(const PatternGauge& gauge) { return gauge.stitches * span_4in_mm / gauge.span_mm; }

void add_terms_suspicion(const MadeGauge& made, const HookRequest& request, const Catalog& catalog,
                         std::vector<Reason>& reasons) {
    if (!made.rows_per_100mm || !request.want.rows || is_knitting(request)) return;
    const double made_shape = made.stitches_per_100mm.value / made.rows_per_100mm->value;
    const double wanted_shape = request.want.stitches / *request.want.rows;
    // Neighbouring stitches differ by a factor of 1.4 in height:width; half-way is 1.2 (catalogue, stitches).
    constexpr double other_stitch = 1.2;
    if (std::abs(std::log(made_shape / wanted_shape)) < std::log(other_stitch)) return;
    const auto& yours = facts_of(catalog, family_of_shape(made_shape, catalog));
    const auto& theirs = facts_of(catalog, family_of_shape(wanted_shape, catalog));
    if (yours.family == theirs.family) return;
    reasons.push_back(
        {"other-stitch", "the wanted gauge has the shape of US " + theirs.us.name + " (UK " + theirs.uk.name +
                             "), yours that of US " + yours.us.name + " (UK " + yours.uk.name +
                             "): check which stitch is meant and whether the pattern is in US or UK terms"});
}

void add_knit_suspicion(const HookRequest& request, const Catalog& catalog, std::vector<Reason>& reasons) {
    if (request.want.craft == Craft::crochet || !request.want.rows || is_knitting(request)) return;
    const double shape = request.want.stitches / *request.want.rows;
    const auto& knit = facts_of(catalog, StitchFamily::stockinette).height_to_width;
    const auto& crochet = facts_of(catalog, StitchFamily::sc).height_to_width;
    if (shape < crochet.low && shape >= knit.low - knit.std) {
        reasons.push_back({"looks-like-knit-gauge",
                           "the wanted gauge has the shape of knitting, wider than high: a knit gauge from a "
                           "ball band is no target for crochet"});
    }
}

}  // namespace

std::optional<Refusal> check_target(const HookRequest& request, const Catalog& catalog) {
    if (is_knitting(request) || request.want.craft == Craft::crochet) return std::nullopt;
    const std::string hint =
        "take the crochet gauge of the pattern; where the figures are one, say so: \"18x24 crochet\"";
    if (request.want.craft == Craft::knit)
        return Refusal{"advice", "knit-gauge", "a knit gauge is no target for crochet", hint};
    if (!request.yarn_category) return std::nullopt;
    const auto& weight = catalog.yarn_weights.at(static_cast<std::size_t>(*request.yarn_category));
    const double stitches = per_4in(request.want);
    const bool above_crochet =
        weight.crochet_stitches_4in.high && stitches > *weight.crochet_stitches_4in.high;
    if (!above_crochet || !weight.knit_stitches_4in.holds(std::round(stitches))) return std::nullopt;
    return Refusal{"advice", "knit-gauge",
                   "the wanted gauge is in the knit range of yarn category " +
                       std::to_string(weight.category) + " and above its crochet range",
                   hint};
}

std::vector<Reason> suspicions(const MadeGauge& made, const HookRequest& request, const SizeError& error,
                               const Catalog& catalog) {
    std::vector<Reason> reasons;
    const double large = catalog.hook_practice.large_miss.value;
    if (std::abs(error.value) > large) {
        reasons.push_back(
            {"large-miss",
             "off by " + percent(error.value) + ", more than " + percent(large) +
                 ": that is rarely the hook alone; check yarn weight, stitch and terms (US or UK)"});
    }
    add_terms_suspicion(made, request, catalog, reasons);
    add_knit_suspicion(request, catalog, reasons);
    return reasons;
}

}  // namespace ridgetally
