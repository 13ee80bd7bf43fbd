#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "advice/hook_advice.h"
#include "advice/hook_workings.h"
#include "advice/normal.h"

namespace ridgetally {
namespace {

/// Two shafts that differ by less are one hook: finer than any two sizes that are sold.
constexpr double same_hook_mm = 0.01;

void require_sense(const MadeGauge& made, const HookRequest& request) {
    const bool rows_are_counts = (!made.rows_per_100mm || made.rows_per_100mm->value > 0.0) &&
                                 (!request.want.rows || *request.want.rows > 0.0);
    if (!(made.stitches_per_100mm.value > 0.0) || !(request.want.stitches > 0.0) || !rows_are_counts)
        throw std::invalid_argument("a gauge counts more than nothing");
    if (!(request.want.span_mm > 0.0) || (request.hook_mm && !(*request.hook_mm > 0.0)))
        throw std::invalid_argument("spans and hooks are above zero");
    if (request.tolerance && !(*request.tolerance > 0.0 && *request.tolerance < 1.0))
        throw std::invalid_argument("a tolerance is a share between 0 and 1");
}

HookVerdict verdict_of(Judgement judgement) {
    switch (judgement) {
        case Judgement::within:
            return HookVerdict::keep;
        case Judgement::too_small:
            return HookVerdict::larger;
        case Judgement::too_large:
            return HookVerdict::smaller;
        case Judgement::unclear:
            break;
    }
    return HookVerdict::unsure;
}

std::vector<double> hooks_to_try(const HookRequest& request, const Catalog& catalog) {
    if (!request.own_hooks_mm.empty()) return request.own_hooks_mm;
    std::vector<double> hooks;
    for (const auto& hook : catalog.hooks)
        if (hook.widely_sold) hooks.push_back(hook.mm);
    return hooks;
}

HookTrial trial_of(double hook_mm, const HookRequest& request, const HookAdvice& advice) {
    const PredictedWidth predicted = predict_width(advice.response, hook_mm);
    const double off = predicted.mean_log - std::log(request.want.stitch_width_mm());
    return {
        hook_mm, reciprocal(span_10cm_mm, predicted.width_mm()),
        normal_between(off, predicted.std_log, std::log1p(-advice.tolerance), std::log1p(advice.tolerance))};
}

/// How far off the width is, as a distance of logarithms.
double miss(double stitches_per_100mm, const HookRequest& request) {
    return std::abs(std::log(request.want.stitches_per_100mm() / stitches_per_100mm));
}

/// The hook of the set on the side the verdict points to that has the best chance; none that is expected to
/// miss by more than the hook in use, and none with a smaller chance.
std::optional<HookTrial> best_trial(const HookRequest& request, const Catalog& catalog,
                                    const HookAdvice& advice) {
    std::optional<HookTrial> best;
    for (const double hook : hooks_to_try(request, catalog)) {
        const double change = hook - *request.hook_mm;
        const bool right_way =
            advice.verdict == HookVerdict::larger ? change > same_hook_mm : change < -same_hook_mm;
        if (!right_way) continue;
        const HookTrial trial = trial_of(hook, request, advice);
        const bool nearer =
            miss(trial.stitches_per_100mm.value, request) < std::abs(std::log1p(advice.error.value));
        const double chance_to_beat = best ? best->chance : advice.chance_within_tolerance;
        if (nearer && trial.chance > chance_to_beat) best = trial;
    }
    return best;
}

void choose_hook(const HookRequest& request, const Catalog& catalog, HookAdvice& advice) {
    if (!request.hook_mm) return;
    advice.ideal_hook_mm =
        *request.hook_mm * std::pow(1.0 + advice.error.value, -1.0 / advice.response.exponent.value);
    if (advice.verdict != HookVerdict::larger && advice.verdict != HookVerdict::smaller) return;
    advice.trial = best_trial(request, catalog, advice);
    if (advice.trial) advice.chance_within_tolerance = advice.trial->chance;
}

IfUnchanged if_unchanged(const MadeGauge& made, const HookRequest& request) {
    IfUnchanged piece;
    piece.wanted_width_mm = request.piece.width_mm.value_or(request.want.span_mm);
    piece.width_mm = scaled(made.stitch_width_mm(), piece.wanted_width_mm / request.want.stitch_width_mm());
    piece.stitches_for_width = piece.wanted_width_mm * made.stitches_per_100mm.value / span_10cm_mm;
    const auto wanted_rows = request.want.rows_per_100mm();
    if (!made.rows_per_100mm || !wanted_rows) return piece;
    piece.wanted_height_mm = request.piece.height_mm.value_or(request.want.span_mm);
    piece.height_mm = scaled(*made.row_height_mm(), *piece.wanted_height_mm * *wanted_rows / span_10cm_mm);
    return piece;
}

RowVerdict row_verdict_of(Judgement judgement) {
    switch (judgement) {
        case Judgement::within:
            return RowVerdict::keep;
        case Judgement::too_small:
            return RowVerdict::taller;
        case Judgement::too_large:
            return RowVerdict::shorter;
        case Judgement::unclear:
            break;
    }
    return RowVerdict::unsure;
}

std::optional<RowAdvice> advise_rows(const MadeGauge& made, const HookRequest& request, double tolerance) {
    const auto wanted = request.want.rows_per_100mm();
    if (!made.rows_per_100mm || !wanted) return std::nullopt;
    RowAdvice rows;
    rows.error = size_error(*made.rows_per_100mm, *wanted);
    rows.verdict = row_verdict_of(judge(rows.error, tolerance));
    rows.rows_for_pattern_span = made.rows_per_100mm->value * request.want.span_mm / span_10cm_mm;
    return rows;
}

}  // namespace

std::string_view key_of(HookVerdict verdict) {
    switch (verdict) {
        case HookVerdict::keep:
            return "keep";
        case HookVerdict::larger:
            return "larger";
        case HookVerdict::smaller:
            return "smaller";
        case HookVerdict::unsure:
            break;
    }
    return "unsure";
}

std::string_view key_of(RowVerdict verdict) {
    switch (verdict) {
        case RowVerdict::keep:
            return "keep";
        case RowVerdict::taller:
            return "taller";
        case RowVerdict::shorter:
            return "shorter";
        case RowVerdict::unsure:
            break;
    }
    return "unsure";
}

SizeError size_error(const Measured& made_count, double wanted_count) {
    // A count whose interval reaches down to nothing would make stitches of any size; a hundredth keeps it
    // finite.
    const double least = std::max(made_count.low95(), made_count.value / 100.0);
    return {wanted_count / made_count.value - 1.0, wanted_count / made_count.high95() - 1.0,
            wanted_count / least - 1.0};
}

Judgement judge(const SizeError& error, double tolerance) {
    if (error.low95 > tolerance) return Judgement::too_large;
    if (error.high95 < -tolerance) return Judgement::too_small;
    if (error.low95 < -tolerance && error.high95 > tolerance) return Judgement::unclear;
    return Judgement::within;
}

Outcome<HookAdvice> advise_hook(const MadeGauge& made, const HookRequest& request, const Catalog& catalog) {
    require_sense(made, request);
    if (const auto refusal = check_target(request, catalog)) return *refusal;
    HookAdvice advice;
    advice.tolerance = request.tolerance.value_or(catalog.hook_practice.gauge_repeat.value);
    advice.error = size_error(made.stitches_per_100mm, request.want.stitches_per_100mm());
    advice.verdict = verdict_of(judge(advice.error, advice.tolerance));
    // Without a hook there is no line to learn: any hook stands for "the same again".
    const double hook_mm = request.hook_mm.value_or(1.0);
    advice.response = learn_response({hook_mm, made.stitch_width_mm()},
                                     request.hook_mm ? request.record : HookRecord{}, catalog.hook_practice);
    const HookTrial unchanged = trial_of(hook_mm, request, advice);
    advice.chance_within_tolerance = unchanged.chance;
    if (request.hook_mm) advice.unchanged_hook = unchanged;
    choose_hook(request, catalog, advice);
    advice.rows = advise_rows(made, request, advice.tolerance);
    advice.if_unchanged = if_unchanged(made, request);
    advice.reasons = hook_reasons(made, request, advice, catalog);
    advice.workings = hook_workings(made, request, advice, catalog);
    return advice;
}

}  // namespace ridgetally
