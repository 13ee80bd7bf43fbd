#include <memory>

#include "cli/commands.h"
#include "cli/deliver.h"
#include "cli/gauge_options.h"
#include "cli/hat_options.h"
#include "cli/hook_options.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "report/hat.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally hat --head 56cm --gauge 14x16 --stitch sc
  ridgetally hat --head "22 in" --gauge 9x9/4in --stitch sc --multiple 4 --units in
  ridgetally hat --head 48cm --head 52cm --head 56cm --gauge 13x10 --stitch hdc --terms uk
  ridgetally hat --age 9months --gauge 18x20 --stitch sc --brim 3cm
  ridgetally hat --head 56cm --yarn "Fennelwick DK, Moss" --hook 5mm     (gauge from your record)
  ridgetally hat --stitches 44 --gauge 9x9/4in --stitch sc      (which head is that?)

Exit status: 0 planned, 2 refused (says why), 64 wrong use, 65 not a document of this program.)";

struct HatArguments {
    GaugeArguments gauge;
    HeadArguments heads;
    int stitches = 0;  ///< of the reverse question; 0: a plan is asked for
    HatRequest request;
    HatOptions output;
    Form form = Form::text;
};

ExitStatus answer_head(const HatArguments& arguments, const HatRequest& request, const HatGauge& gauge,
                       const Catalog& catalog) {
    const auto answer = head_for(arguments.stitches, request, gauge, catalog);
    const auto cautions = cautions_for({Head{answer.head_mm, "", "", {}, {}}}, catalog);
    if (arguments.form == Form::json)
        return write_output(json_text(head_document(answer, gauge, cautions, arguments.output)));
    return write_output(head_text(answer, gauge, cautions, catalog, arguments.output));
}

ExitStatus answer_plan(const HatArguments& arguments, const HatRequest& request, const HatGauge& gauge,
                       const Catalog& catalog) {
    const PhotoOfCommand no_photo{"hat", ""};
    const auto heads = heads_from(arguments.heads, catalog);
    if (!heads) return deliver_refusal(heads.refusal(), no_photo, arguments.form);
    HatsPlanned planned{gauge, request, {}, cautions_for(*heads, catalog)};
    for (const auto& head : *heads) {
        auto hat = plan_hat(head, request, gauge, catalog);
        if (!hat) return deliver_refusal(hat.refusal(), no_photo, arguments.form);
        planned.hats.push_back(std::move(hat).value());
    }
    if (arguments.form == Form::json)
        return write_output(json_text(hats_document(planned, catalog, arguments.output)));
    return write_output(hats_text(planned, catalog, arguments.output));
}

ExitStatus run_hat(const HatArguments& arguments) {
    const PhotoOfCommand no_photo{"hat", ""};
    const auto catalog = load_catalog(models_folder());
    if (!catalog) return deliver_refusal(catalog.refusal(), no_photo, arguments.form);
    const auto told = gauge_from(arguments.gauge, *catalog);
    if (!told) return deliver_refusal(told.refusal(), no_photo, arguments.form);
    HatRequest request = arguments.request;
    request.gauge = told->gauge;
    request.stitch = told->stitch;
    request.gauge_reasons = told->reasons;
    const auto gauge = hat_gauge(request, *catalog);
    if (!gauge) return deliver_refusal(gauge.refusal(), no_photo, arguments.form);
    return arguments.stitches > 0 ? answer_head(arguments, request, *gauge, *catalog)
                                  : answer_plan(arguments, request, *gauge, *catalog);
}

void add_plan_options(CLI::App& command, HatArguments& arguments) {
    using Text = const std::string&;
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        return command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Hat");
    };
    HatRequest& request = arguments.request;
    add("--multiple", "N",
        "The body's stitches are a multiple of N: 2 for an even number, 4, ... (default: 1)",
        [&request](Text text) { request.multiple = values::count(text); });
    add("--increase", "N", "Stitches to add each round of the crown (default: as many as lie flat)",
        [&request](Text text) { request.added_each_round = values::count(text); });
    add("--brim", "LENGTH", "Height of the brim, within the height",
        [&request](Text text) { request.brim_mm = values::length_mm(text); });
    add("--stitches", "N", "The reverse question: which head is a hat of N stitches for?",
        [&arguments](Text text) { arguments.stitches = values::count(text); });
}

}  // namespace

Command add_hat_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("hat", "Plan a hat round by round, or say which head a stitch count fits");
    const auto arguments = std::make_shared<HatArguments>();
    add_gauge_options(*command, arguments->gauge);
    add_head_options(*command, arguments->heads);
    add_wish_options(*command, arguments->request.wish);
    add_plan_options(*command, *arguments);
    for (const char* head : {"--head", "--age", "--size"})
        command->get_option("--stitches")->excludes(command->get_option(head));
    add_json_option(*command, arguments->form);
    add_units_option(*command, arguments->output.units);
    add_terms_option(*command, arguments->output.terms);
    add_why_option(*command, arguments->output.why);
    command->footer(examples);
    return [arguments] { return run_hat(*arguments); };
}

}  // namespace ridgetally
