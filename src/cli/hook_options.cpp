#include "cli/hook_options.h"

#include <utility>

#include "catalog/hook_marks.h"
#include "cli/settings.h"
#include "cli/yarn_commands.h"

namespace ridgetally {
namespace {

using Text = const std::string&;

Outcome<std::optional<double>> hook_in_use(const HookArguments& arguments, const Catalog& catalog) {
    if (!arguments.recorded.hook) return std::optional<double>();
    const auto hook = hook_told(*arguments.recorded.hook, catalog);
    if (!hook) return hook.refusal();
    return std::optional(*hook);
}

Outcome<std::vector<double>> own_hooks(const HookArguments& arguments, const Catalog& catalog) {
    if (arguments.hooks) return hooks_mm_from(catalog, *arguments.hooks);
    const auto settings = load_settings();
    if (!settings) return settings.refusal();
    if (!settings->hooks) return std::vector<double>();
    return hooks_mm_from(catalog, *settings->hooks);
}

Outcome<std::optional<double>> tolerance_share(const HookArguments& arguments) {
    if (!arguments.tolerance) return std::optional<double>();
    if (arguments.tolerance->share) return arguments.tolerance->share;
    if (!arguments.piece.width_mm) {
        return Refusal{"advice", "no-piece", "a tolerance in cm or inches needs the width of the piece",
                       "tell the width with --piece, or the tolerance as a share, as in 3%"};
    }
    return std::optional(*arguments.tolerance->length_mm / *arguments.piece.width_mm);
}

}  // namespace

void add_why_option(CLI::App& command, Why& why) {
    command
        .add_flag_callback(
            "--why", [&why] { why = Why::shown; },
            "Say how every figure came about: formula, what it was worked out from, source")
        ->group("Output");
}

void add_hook_options(CLI::App& command, HookArguments& arguments, const std::string& target) {
    auto* want = command.add_option_function<std::string>(
        target, [&arguments](Text text) { arguments.want = values::gauge(text); },
        "The gauge of the pattern, stitches x rows as in 13x16: get told whether the hook is right");
    want->type_name("GAUGE")->group("Hook");
    const auto add = [&](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)
            ->type_name(type)
            ->group("Hook")
            ->needs(want);
    };
    add("--per", "10cm|4in",
        "The span the gauges are told over, where they do not say it themselves (default: that of the other, "
        "else 10cm)",
        [&arguments](Text text) { arguments.span_mm = values::span_mm(text); });
    add("--hooks", "MM,MM,...",
        "The hooks you have (default: those of your settings, else sizes that are widely sold)",
        [&arguments](Text text) { arguments.hooks = text; });
    add("--tolerance", "SHARE", "How far off the size may be: 3%, or 2cm of the piece's width (default: 3%)",
        [&arguments](Text text) { arguments.tolerance = values::tolerance(text); });
    add("--piece", "SIZE", "What the pattern's piece shall measure: 56cm, or width x height as in 56x22cm",
        [&arguments](Text text) { arguments.piece = values::piece(text); });
    add("--yarn-weight", "0-7", "The yarn's weight category: shows up knit gauges taken from a ball band",
        [&arguments](Text text) { arguments.yarn_category = values::yarn_category(text); });
    add_why_option(command, arguments.why);
    add_recorded_yarn_options(command, arguments.recorded);
    command.get_option("--yarn")->needs(want);
}

void share_save_options(CLI::App& command) {
    for (const char* option : {"--hook", "--state", "--record"})
        command.get_option(option)->remove_needs(command.get_option("--save"));
}

std::optional<std::string> hand_over(const SaveRequest& save, HookArguments& arguments,
                                     const std::string& target) {
    if (!save.yarn && !arguments.want) {
        const std::string use = " goes with " + target + " or --save";
        if (save.hook) return "--hook" + use;
        if (save.told.state) return "--state" + use;
        if (!save.record.empty()) return "--record" + use;
    }
    RecordedYarnArguments& recorded = arguments.recorded;
    recorded.hook = save.hook;
    recorded.record = save.record;
    if (!recorded.yarn) recorded.yarn = save.yarn;
    return std::nullopt;
}

Outcome<HookRequest> hook_request(const HookArguments& arguments, const Catalog& catalog) {
    HookRequest request;
    request.want = pattern_gauge(arguments.want.value(), arguments.span_mm.value_or(span_10cm_mm));
    request.piece = arguments.piece;
    request.yarn_category = arguments.yarn_category;
    const auto hook = hook_in_use(arguments, catalog);
    if (!hook) return hook.refusal();
    request.hook_mm = *hook;
    const auto hooks = own_hooks(arguments, catalog);
    if (!hooks) return hooks.refusal();
    request.own_hooks_mm = *hooks;
    const auto tolerance = tolerance_share(arguments);
    if (!tolerance) return tolerance.refusal();
    request.tolerance = *tolerance;
    if (const auto refusal = check_target(request, catalog)) return *refusal;
    return request;
}

GaugeVerdict judge_gauge(const MadeGauge& made, HookRequest request,
                         const std::optional<SwatchJudged>& judged, const MakersRecord& record,
                         const Catalog& catalog) {
    if (judged) {
        request.stitch = judged->stitch;
        if (request.hook_mm) request.record = record.learned(*judged);
    }
    auto advice = advise_hook(made, request, catalog);
    return {std::move(advice).value(), std::move(request), made};
}

Document verdict_document(const GaugeVerdict& verdict, const AdviceOptions& options) {
    return advice_document(verdict.advice, verdict.request, verdict.made, options);
}

std::string verdict_text(const GaugeVerdict& verdict, const Catalog& catalog, const AdviceOptions& options) {
    return advice_text(verdict.advice, verdict.request, verdict.made, catalog, options);
}

}  // namespace ridgetally
