#include <memory>

#include "cli/commands.h"
#include "cli/run_calculator.h"
#include "cli/values.h"
#include "report/advice.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally hook --have 12.5x15 --want 13x16 --hook 5.5mm
  ridgetally hook --have 12.5+-0.3x15+-0.3 --want 13x16 --hook "US I-9" --hooks 4,4.5,5,5.5,6
  ridgetally hook --have 15x17 --want 14x16 --per 4in --piece "22 in" --units in
  ridgetally hook --have 12.5 --want 13 --hook 5.5mm --why
  ridgetally hook --have 12.5x15 --want 13x16 --hook 5.5mm --yarn "Fennelwick DK, Moss" --stitch sc
  ridgetally hook --yarn "Fennelwick DK, Moss" --hook 5mm --want 16x18     (your gauge from the record)

How stitches follow the hook is learned from the swatches of that yarn in your record, from
your other yarns in the same stitch, and from published series; the answer says from which.

Exit status: 0 judged, 2 refused (says why), 64 wrong use, 65 bad settings file.)";

/// A gauge to judge, and what is known of the swatch.
struct GaugeToJudge {
    MadeGauge made;
    std::optional<SwatchJudged> judged;
    std::optional<double> hook_mm;  ///< of the record
    std::vector<Reason> reasons;
};

/// The gauge told. Without its stitch nothing is learned from the yarn that was named: that is said.
GaugeToJudge told_gauge(const HookCommandArguments& arguments, double span_mm) {
    const RecordedYarnArguments& recorded = arguments.hook.recorded;
    GaugeToJudge gauge{made_gauge(*arguments.have, span_mm), {}, {}, {}};
    if (recorded.told.stitch) {
        gauge.judged = SwatchJudged{*recorded.told.stitch, recorded.told.worked, recorded.told.state, {}, {}};
    } else if (recorded.yarn) {
        gauge.reasons.push_back({"stitch-not-told",
                                 "nothing was learned from the record: say the stitch of the swatch, with "
                                 "--stitch"});
    }
    return gauge;
}

Outcome<GaugeToJudge> gauge_of_record(const RecordedYarnArguments& arguments, const Catalog& catalog) {
    const auto found = recorded_yarn(arguments, catalog);
    if (!found) return found.refusal();
    const auto chosen = choose_gauge(found->yarn, gauge_by_hook(found->measurements), found->choice);
    if (!chosen) return chosen.refusal();
    const HookGauge& gauge = chosen->gauge;
    GaugeToJudge to_judge{{gauge.stitches_per_10cm, gauge.rows_per_10cm, chosen->source},
                          {},
                          gauge.kind.hook_mm,
                          chosen->reasons};
    if (gauge.kind.stitch)
        to_judge.judged =
            SwatchJudged{*gauge.kind.stitch, gauge.kind.worked, gauge.kind.state, {}, gauge.numbers};
    return to_judge;
}

Refusal no_gauge() {
    return {"advice", "no-gauge", "no gauge was told",
            "tell it with --have, as in 14x16, or the yarn of your record with --yarn"};
}

Outcome<GaugeVerdict> judged_gauge(const HookCommandArguments& arguments, const Catalog& catalog) {
    HookArguments hook = arguments.hook;
    // A gauge without a span is told over that of the other: two spans are never mixed by accident.
    if (arguments.have && !hook.span_mm && !hook.want->span_mm) hook.span_mm = arguments.have->span_mm;
    auto request = hook_request(hook, catalog);
    if (!request) return request.refusal();
    const auto record = MakersRecord::open(hook.recorded);
    if (!record) return record.refusal();
    if (!arguments.have && !hook.recorded.yarn) return no_gauge();
    auto gauge = arguments.have ? Outcome<GaugeToJudge>(told_gauge(arguments, request->want.span_mm))
                                : gauge_of_record(hook.recorded, catalog);
    if (!gauge) return gauge.refusal();
    HookRequest complete = *request;
    if (gauge->hook_mm) complete.hook_mm = gauge->hook_mm;
    GaugeVerdict verdict = judge_gauge(gauge->made, complete, gauge->judged, *record, catalog);
    auto& reasons = verdict.advice.reasons;
    reasons.insert(reasons.end(), gauge->reasons.begin(), gauge->reasons.end());
    return verdict;
}

}  // namespace

Outcome<CalculatorAnswer> answer_hook(const HookCommandArguments& arguments, const Catalog& catalog) {
    const auto verdict = judged_gauge(arguments, catalog);
    if (!verdict) return verdict.refusal();
    const AdviceOptions options{arguments.units, arguments.hook.why};
    return CalculatorAnswer{hook_document(verdict->advice, verdict->request, verdict->made, options),
                            verdict_text(*verdict, catalog, options)};
}

void add_hook_command_options(CLI::App& command, HookCommandArguments& arguments) {
    command
        .add_option_function<std::string>(
            "--have", [&arguments](const std::string& text) { arguments.have = values::crochet_gauge(text); },
            "Your gauge, stitches x rows; with its plus-or-minus where you know it: 12.5+-0.3x15+-0.4 "
            "(without it: that of --yarn in your record)")
        ->type_name("GAUGE")
        ->group("Hook");
    add_hook_options(command, arguments.hook);
    command.get_option("--want")->required();
    add_units_option(command, arguments.units);
}

Command add_hook_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("hook", "Judge a gauge against a pattern: keep the hook, or which to try");
    const auto arguments = std::make_shared<HookCommandArguments>();
    add_hook_command_options(*command, *arguments);
    add_json_option(*command, arguments->form);
    command->footer(examples);
    return [arguments] {
        if (!arguments->have && !arguments->hook.recorded.yarn) {
            complain(
                "hook: tell your gauge with --have, or the yarn of your record with --yarn (see ridgetally "
                "hook --help)");
            return ExitStatus::usage;
        }
        return run_calculator("hook", *arguments, answer_hook);
    };
}

}  // namespace ridgetally
