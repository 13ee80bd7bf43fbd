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

Exit status: 0 judged, 2 refused (says why), 64 wrong use, 65 bad settings file.)";

struct HookCommandArguments {
    GaugeText have;
    HookArguments hook;
    SizeUnit units = SizeUnit::cm;
    Form form = Form::text;
};

ExitStatus run_hook(const HookCommandArguments& arguments) {
    const PhotoOfCommand no_photo{"hook", ""};
    const auto catalog = load_catalog(models_folder());
    if (!catalog) return deliver_refusal(catalog.refusal(), no_photo, arguments.form);
    HookArguments hook = arguments.hook;
    // A gauge without a span is told over that of the other: two spans are never mixed by accident.
    if (!hook.span_mm && !hook.want->span_mm) hook.span_mm = arguments.have.span_mm;
    const auto request = hook_request(hook, *catalog);
    if (!request) return deliver_refusal(request.refusal(), no_photo, arguments.form);
    const MadeGauge made = made_gauge(arguments.have, request->want.span_mm);
    const auto advice = advise_hook(made, *request, *catalog);
    if (!advice) return deliver_refusal(advice.refusal(), no_photo, arguments.form);
    const AdviceOptions options{arguments.units, arguments.hook.why};
    if (arguments.form == Form::json)
        return write_output(json_text(hook_document(*advice, *request, made, options)));
    return write_output(advice_text(*advice, *request, made, *catalog, options));
}

}  // namespace

Command add_hook_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("hook", "Judge a gauge against a pattern: keep the hook, or which to try");
    const auto arguments = std::make_shared<HookCommandArguments>();
    command
        ->add_option_function<std::string>(
            "--have", [arguments](const std::string& text) { arguments->have = values::gauge(text); },
            "Your gauge, stitches x rows; with its plus-or-minus where you know it: 12.5+-0.3x15+-0.4")
        ->required()
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
