#include "report/advice.h"
#include "report/document_parts.h"
#include "report/figures.h"

namespace ridgetally {
namespace {

Document error_document(const SizeError& error) {
    return {
        {"value", rounded(error.value)}, {"low95", rounded(error.low95)}, {"high95", rounded(error.high95)}};
}

Document trial_document(const HookTrial& trial) {
    return {{"hook_mm", rounded(trial.hook_mm)},
            {"stitches_per_10cm", measured_document(trial.stitches_per_100mm)},
            {"chance_within_tolerance", rounded(trial.chance)}};
}

Document unchanged_document(const IfUnchanged& piece) {
    Document block;
    block["wanted_width_mm"] = rounded(piece.wanted_width_mm);
    block["width_mm"] = measured_document(piece.width_mm);
    if (piece.height_mm) {
        block["wanted_height_mm"] = rounded(*piece.wanted_height_mm);
        block["height_mm"] = measured_document(*piece.height_mm);
    }
    block["stitches_for_width"] = rounded(piece.stitches_for_width);
    return block;
}

Document rows_document(const RowAdvice& rows, const HookRequest& request, const MadeGauge& made) {
    Document block;
    block["verdict"] = key_of(rows.verdict);
    block["yours_per_10cm"] = measured_document(*made.rows_per_100mm);
    block["wanted_per_10cm"] = rounded(*request.want.rows_per_100mm());
    block["size_error"] = error_document(rows.error);
    block["rows_for_pattern_span"] = rounded(rows.rows_for_pattern_span);
    return block;
}

}  // namespace

Document advice_document(const HookAdvice& advice, const HookRequest& request, const MadeGauge& made,
                         const AdviceOptions& options) {
    Document block;
    block["verdict"] = key_of(advice.verdict);
    if (advice.trial) block["try_hook_mm"] = rounded(advice.trial->hook_mm);
    block["chance_within_tolerance"] = rounded(advice.chance_within_tolerance);
    block["tolerance"] = rounded(advice.tolerance);
    block["if_unchanged"] = unchanged_document(advice.if_unchanged);
    block["stitches"] = {{"yours_per_10cm", measured_document(made.stitches_per_100mm)},
                         {"wanted_per_10cm", rounded(request.want.stitches_per_100mm())},
                         {"size_error", error_document(advice.error)}};
    if (advice.rows) block["rows"] = rows_document(*advice.rows, request, made);
    if (advice.unchanged_hook) block["hook_in_use"] = trial_document(*advice.unchanged_hook);
    if (advice.trial) block["hook_to_try"] = trial_document(*advice.trial);
    if (advice.ideal_hook_mm) block["ideal_hook_mm"] = rounded(*advice.ideal_hook_mm);
    block["response"] = {{"exponent", measured_document(advice.response.exponent)},
                         {"source", advice.response.source}};
    block["reasons"] = reasons_document(advice.reasons);
    if (options.why == Why::shown) block["why"] = workings_document(advice.workings);
    return block;
}

Document hook_document(const HookAdvice& advice, const HookRequest& request, const MadeGauge& made,
                       const AdviceOptions& options) {
    Document document = document_head("hook");
    document["advice"] = advice_document(advice, request, made, options);
    return document;
}

}  // namespace ridgetally
