#include "cli/hook_options.h"

#include <utility>

#include "catalog/hook_marks.h"
#include "cli/settings.h"
#include "cli/streams.h"

namespace ridgetally {
namespace {

using Text = const std::string&;

Outcome<std::optional<double>> hook_in_use(const HookArguments& arguments, const Catalog& catalog) {
    if (!arguments.hook) return std::optional<double>();
    const auto hook = hook_from(catalog, *arguments.hook);
    if (!hook) return hook.refusal();
    for (const auto& warning : hook->warnings) complain(warning);
    return std::optional(hook->mm);
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
                       "Tell the width with --piece, or the tolerance as a share, as in 3%."};
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

void add_hook_options(CLI::App& command, HookArguments& arguments) {
    auto* want = command.add_option_function<std::string>(
        "--want", [&arguments](Text text) { arguments.want = values::gauge(text); },
        "The gauge of the pattern, stitches x rows: get told whether the hook is right");
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
    // Commands that save a measurement have the option already, and hand over what was told.
    if (command.get_option_no_throw("--hook") == nullptr) {
        add("--hook", "SIZE", "The hook in use, as in 5.5mm or \"US I-9\"",
            [&arguments](Text text) { arguments.hook = text; });
    }
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

GaugeVerdict judge_gauge(const MadeGauge& made, HookRequest request, std::optional<StitchFamily> stitch,
                         const Catalog& catalog) {
    if (!request.stitch) request.stitch = stitch;
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
