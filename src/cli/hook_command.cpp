#include <memory>

#include "cli/commands.h"
#include "cli/deliver.h"
#include "cli/hook_options.h"
#include "cli/streams.h"
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

struct HookCommandArguments {
    std::optional<GaugeText> have;
    HookArguments hook;
    SizeUnit units = SizeUnit::cm;
    Form form = Form::text;
};

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

Outcome<GaugeVerdict> judged_gauge(const HookCommandArguments& arguments, const Catalog& catalog) {
    HookArguments hook = arguments.hook;
    // A gauge without a span is told over that of the other: two spans are never mixed by accident.
    if (arguments.have && !hook.span_mm && !hook.want->span_mm) hook.span_mm = arguments.have->span_mm;
    auto request = hook_request(hook, catalog);
    if (!request) return request.refusal();
    const auto record = MakersRecord::open(hook.recorded);
    if (!record) return record.refusal();
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

ExitStatus run_hook(const HookCommandArguments& arguments) {
    if (!arguments.have && !arguments.hook.recorded.yarn) {
        complain(
            "hook: tell your gauge with --have, or the yarn of your record with --yarn (see ridgetally "
            "hook --help)");
        return ExitStatus::usage;
    }
    const PhotoOfCommand no_photo{"hook", ""};
    const auto catalog = load_catalog(models_folder());
    if (!catalog) return deliver_refusal(catalog.refusal(), no_photo, arguments.form);
    const auto verdict = judged_gauge(arguments, *catalog);
    if (!verdict) return deliver_refusal(verdict.refusal(), no_photo, arguments.form);
    const AdviceOptions options{arguments.units, arguments.hook.why};
    if (arguments.form == Form::json)
        return write_output(
            json_text(hook_document(verdict->advice, verdict->request, verdict->made, options)));
    return write_output(verdict_text(*verdict, *catalog, options));
}

}  // namespace

Command add_hook_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("hook", "Judge a gauge against a pattern: keep the hook, or which to try");
    const auto arguments = std::make_shared<HookCommandArguments>();
    command
        ->add_option_function<std::string>(
            "--have", [arguments](const std::string& text) { arguments->have = values::gauge(text); },
            "Your gauge, stitches x rows; with its plus-or-minus where you know it: 12.5+-0.3x15+-0.4 "
            "(without it: that of --yarn in your record)")
        ->type_name("GAUGE")
        ->group("Hook");
    add_hook_options(*command, arguments->hook);
    command->get_option("--want")->required();
    add_json_option(*command, arguments->form);
    add_units_option(*command, arguments->units);
    command->footer(examples);
    return [arguments] { return run_hook(*arguments); };
}

}  // namespace ridgetally
