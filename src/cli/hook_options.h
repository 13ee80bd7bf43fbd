#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "advice/hook_advice.h"
#include "cli/advice_values.h"
#include "report/advice.h"

namespace ridgetally {

/// What was told about the target and the hooks; `want` is absent where no advice is asked for.
struct HookArguments {
    std::optional<GaugeText> want;
    std::optional<double> span_mm;     ///< of --per
    std::optional<std::string> hook;   ///< as typed: marks need the catalogue
    std::optional<std::string> hooks;  ///< as typed
    std::optional<values::ToleranceText> tolerance;
    PieceSize piece;
    std::optional<int> yarn_category;
    Why why = Why::hidden;
};

/// --want, --per, --hook, --hooks, --tolerance, --piece, --yarn-weight, --why; the others need --want.
void add_hook_options(CLI::App& command, HookArguments& arguments);

/// --why.
void add_why_option(CLI::App& command, Why& why);

/// What is to be judged; `want` must be told. Warnings on hook marks go to standard error. Refusals: of
/// hook_from and check_target, "bad-settings", and stage "advice", code "no-piece" where the tolerance is a
/// length and the piece's width was not told.
[[nodiscard]] Outcome<HookRequest> hook_request(const HookArguments& arguments, const Catalog& catalog);

/// What is advised on a gauge, and what it was advised from.
struct GaugeVerdict {
    HookAdvice advice;
    HookRequest request;
    MadeGauge made;
};

/// Judges the gauge of a piece; the stitch is the one recognised in it unless the request names one. The
/// request comes from hook_request, which has checked its target.
[[nodiscard]] GaugeVerdict judge_gauge(const MadeGauge& made, HookRequest request,
                                       std::optional<StitchFamily> stitch, const Catalog& catalog);

/// advice_document and advice_text of a verdict.
[[nodiscard]] Document verdict_document(const GaugeVerdict& verdict, const AdviceOptions& options);
[[nodiscard]] std::string verdict_text(const GaugeVerdict& verdict, const Catalog& catalog,
                                       const AdviceOptions& options);

}  // namespace ridgetally
