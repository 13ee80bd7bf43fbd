#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "advice/hook_advice.h"
#include "cli/advice_values.h"
#include "cli/recorded_yarn.h"
#include "cli/save_option.h"
#include "report/advice.h"

namespace ridgetally {

/// What was told about the target and the hooks; `want` is absent where no advice is asked for.
struct HookArguments {
    std::optional<GaugeText> want;
    std::optional<double> span_mm;     ///< of --per
    std::optional<std::string> hooks;  ///< as typed
    RecordedYarnArguments recorded;    ///< with the hook in use, as typed
    std::optional<values::ToleranceText> tolerance;
    PieceSize piece;
    std::optional<int> yarn_category;
    Why why = Why::hidden;
};

/// The target, --want or what a command calls it, --per, --hooks, --tolerance, --piece, --yarn-weight, --why,
/// and the options of add_recorded_yarn_options; --yarn and what came before need the target.
void add_hook_options(CLI::App& command, HookArguments& arguments, const std::string& target = "--want");

/// Lets the options of saving that tell something of the piece (--hook, --state, --record) serve the advice
/// as well: --save is not needed for them any more.
void share_save_options(CLI::App& command);

/// Hands what was told of the piece to the advice, and the yarn it is saved under where no other was named.
/// Gives what is wrong where it was told for neither use; `target` is the option that asks for advice.
[[nodiscard]] std::optional<std::string> hand_over(const SaveRequest& save, HookArguments& arguments,
                                                   const std::string& target = "--want");

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

/// Judges the gauge of a piece with what the record says of swatches like it; without `judged`, whose stitch
/// is not known, nothing is learned. The request comes from hook_request, which has checked its target.
[[nodiscard]] GaugeVerdict judge_gauge(const MadeGauge& made, HookRequest request,
                                       const std::optional<SwatchJudged>& judged, const MakersRecord& record,
                                       const Catalog& catalog);

/// advice_document and advice_text of a verdict.
[[nodiscard]] Document verdict_document(const GaugeVerdict& verdict, const AdviceOptions& options);
[[nodiscard]] std::string verdict_text(const GaugeVerdict& verdict, const Catalog& catalog,
                                       const AdviceOptions& options);

}  // namespace ridgetally
