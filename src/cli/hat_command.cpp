#include <memory>

#include "cli/commands.h"
#include "cli/run_calculator.h"
#include "cli/values.h"

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

CalculatorAnswer head_answer(const HatArguments& arguments, const HatRequest& request, const HatGauge& gauge,
                             const Catalog& catalog) {
    const auto answer = head_for(arguments.stitches, request, gauge, catalog);
    const auto cautions = cautions_for({Head{answer.head_mm, "", "", {}, {}}}, catalog);
    return {head_document(answer, gauge, cautions, arguments.output),
            head_text(answer, gauge, cautions, catalog, arguments.output)};
}

Outcome<CalculatorAnswer> plan_answer(const HatArguments& arguments, const HatRequest& request,
                                      const HatGauge& gauge, const Catalog& catalog) {
    const auto heads = heads_from(arguments.heads, catalog);
    if (!heads) return heads.refusal();
    HatsPlanned planned{gauge, request, {}, cautions_for(*heads, catalog)};
    for (const auto& head : *heads) {
        auto hat = plan_hat(head, request, gauge, catalog);
        if (!hat) return hat.refusal();
        planned.hats.push_back(std::move(hat).value());
    }
    return CalculatorAnswer{hats_document(planned, catalog, arguments.output),
                            hats_text(planned, catalog, arguments.output)};
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

Outcome<CalculatorAnswer> answer_hat(const HatArguments& arguments, const Catalog& catalog) {
    const auto told = gauge_from(arguments.gauge, catalog);
    if (!told) return told.refusal();
    HatRequest request = arguments.request;
    request.gauge = told->gauge;
    request.stitch = told->stitch;
    request.gauge_reasons = told->reasons;
    const auto gauge = hat_gauge(request, catalog);
    if (!gauge) return gauge.refusal();
    if (arguments.stitches > 0) return head_answer(arguments, request, *gauge, catalog);
    return plan_answer(arguments, request, *gauge, catalog);
}

void add_hat_options(CLI::App& command, HatArguments& arguments) {
    add_gauge_options(command, arguments.gauge);
    add_head_options(command, arguments.heads);
    add_wish_options(command, arguments.request.wish);
    add_plan_options(command, arguments);
    for (const char* head : {"--head", "--age", "--size"})
        command.get_option("--stitches")->excludes(command.get_option(head));
    add_units_option(command, arguments.output.units);
    add_terms_option(command, arguments.output.terms);
    add_why_option(command, arguments.output.why);
}

Command add_hat_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("hat", "Plan a hat round by round, or say which head a stitch count fits");
    const auto arguments = std::make_shared<HatArguments>();
    add_hat_options(*command, *arguments);
    add_json_option(*command, arguments->form);
    command->footer(examples);
    return [arguments] { return run_calculator("hat", *arguments, answer_hat); };
}

}  // namespace ridgetally
