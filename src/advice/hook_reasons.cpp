#include <cmath>

#include "advice/hook_workings.h"
#include "core/decimal.h"

namespace ridgetally {
namespace {

std::string percent(double share) { return fixed(100.0 * std::abs(share), 1) + " %"; }

std::string mm(double hook_mm) { return fixed(hook_mm, 2) + " mm"; }

/// Off by more than the tolerance, with an interval that reaches back into it.
Reason not_proven(const HookAdvice& advice) {
    const bool large = advice.error.value > 0.0;
    const double nearest = large ? advice.error.low95 : advice.error.high95;
    const bool beyond = (nearest > 0.0) != large;
    const std::string reach =
        beyond ? "even takes in stitches " + percent(nearest) + " too " + (large ? "small" : "large")
               : "takes in stitches only " + percent(nearest) + " too " + (large ? "large" : "small");
    return {"not-proven", "the stitches are " + percent(advice.error.value) + " too " +
                              (large ? "large" : "small") + ", but the plus-or-minus of the gauge " + reach +
                              ", and " + percent(advice.tolerance) +
                              " is good enough: it does not prove that another hook is needed; a larger "
                              "swatch or a second photo would tell"};
}

Reason about_stitches(const HookAdvice& advice) {
    const std::string off = percent(advice.error.value);
    switch (advice.verdict) {
        case HookVerdict::larger:
            return {"stitches-too-small",
                    "more stitches than wanted: yours are " + off + " too small, so the hook must be larger"};
        case HookVerdict::smaller:
            return {"stitches-too-large", "fewer stitches than wanted: yours are " + off +
                                              " too large, so the hook must be smaller"};
        case HookVerdict::unsure:
            return {"interval-too-wide",
                    "the measurement is too coarse to tell: it reaches beyond the tolerance on both sides; "
                    "measure a "
                    "larger swatch, or take more photos of it"};
        case HookVerdict::keep:
            break;
    }
    if (std::abs(advice.error.value) <= advice.tolerance)
        return {"stitches-fit", "the stitches are within the tolerance"};
    return not_proven(advice);
}

void add_hook_reasons(const HookRequest& request, const HookAdvice& advice, std::vector<Reason>& reasons) {
    if (advice.verdict != HookVerdict::larger && advice.verdict != HookVerdict::smaller) return;
    if (!request.hook_mm) {
        reasons.push_back(
            {"hook-not-told", "which hook to try cannot be said: the hook in use was not told"});
        return;
    }
    if (advice.trial) {
        reasons.push_back({"first-try",
                           "a first try, not a promise: one step of the hook moves gauge more or less than "
                           "expected; make a new swatch"});
    } else {
        reasons.push_back({"no-hook-fits", "no hook of the set is expected to come nearer; one of about " +
                                               mm(*advice.ideal_hook_mm) + " would"});
    }
    reasons.push_back(
        {"or-change-count", "or keep the hook, if you like the fabric, and change the stitch count"});
    if (request.own_hooks_mm.empty())
        reasons.push_back(
            {"hooks-assumed", "your hooks were not told: sizes that are widely sold were considered"});
}

Reason about_rows(const RowAdvice& rows, HookVerdict verdict) {
    const std::string off = percent(rows.error.value);
    const std::string later = verdict == HookVerdict::larger || verdict == HookVerdict::smaller
                                  ? "; judge them again after the change of hook"
                                  : "; that is not the hook's job";
    switch (rows.verdict) {
        case RowVerdict::taller:
            return {"rows-too-short",
                    "the rows are " + off + " too short" + later +
                        ": draw the first loop up higher, or work more rows for the same length"};
        case RowVerdict::shorter:
            return {"rows-too-tall",
                    "the rows are " + off + " too tall" + later +
                        ": keep the first loop lower, or work fewer rows for the same length"};
        case RowVerdict::unsure:
            return {"rows-unclear", "the measurement is too coarse to judge the rows"};
        case RowVerdict::keep:
            break;
    }
    return {"rows-fit",
            "the rows do not differ from the wanted ones by more than tolerance and measurement allow"};
}

}  // namespace

std::vector<Reason> hook_reasons(const MadeGauge& made, const HookRequest& request, const HookAdvice& advice,
                                 const Catalog& catalog) {
    std::vector<Reason> reasons = {about_stitches(advice)};
    add_hook_reasons(request, advice, reasons);
    if (advice.rows) reasons.push_back(about_rows(*advice.rows, advice.verdict));
    const auto suspect = suspicions(made, request, advice.error, catalog);
    reasons.insert(reasons.end(), suspect.begin(), suspect.end());
    return reasons;
}

}  // namespace ridgetally
