#include <memory>

#include "cli/advice_values.h"
#include "cli/commands.h"
#include "cli/run_calculator.h"
#include "cli/yarn_values.h"
#include "report/yarn_needed.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally yarn-needed --swatch-mass 12.4g --swatch-area 15x15cm --head 56cm --ball 50g/87yd
  ridgetally yarn-needed --swatch-mass 12.4g --measured gauge.json --head 48cm --head 56cm --count 3 --ball 100g/177m --stock 4
  ridgetally yarn-needed --swatch-mass 4g --swatch-area "36 sq in" --area "60x60 in" --ball 50g/87yd --units in
  ridgetally yarn-needed --used 85g --count 4 --stock 350g        (the last one took 85 g)
  ridgetally yarn-needed --yarn "Fennelwick DK, Moss" --hook 5mm --head 56cm --count 3    (have I enough?)
  ridgetally yarn-needed --yarn "Fennelwick DK, Moss" --like 12 --count 3   (a saved piece that was weighed)

With --yarn, what the weighed swatches of your record took, the ball and what is left come from the
record; what you tell besides goes before it.

Exit status: 0 worked out, 2 refused (says why), 64 wrong use, 65 not a document of this program or a
damaged record.)";

void add_yarn_options(CLI::App& command, YarnNeededArguments& arguments) {
    using Text = const std::string&;
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        return command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Yarn");
    };
    auto* mass = add("--swatch-mass", "MASS", "What the swatch weighs, as exactly as your scales say: 12.4g",
                     [&arguments](Text text) { arguments.swatch_mass_g = values::weighed_g(text); });
    auto* area =
        add("--swatch-area", "AREA", "The swatch's width x height, or its area: 15x15cm, \"36 sq in\"",
            [&arguments](Text text) { arguments.swatch_area_mm2 = values::area_mm2(text); });
    add("--measured", "FILE",
        "The swatch's size, and its mass where it was told, as ridgetally swatch --json wrote them into FILE",
        [&arguments](Text text) { arguments.measured_file = text; })
        ->excludes(area);
    area->needs(mass);
    add("--used", "MASS", "What one such piece took the last time",
        [&arguments](Text text) { arguments.used_g = values::weighed_g(text); });
    add("--area", "AREA", "Area of the piece to be made",
        [&arguments](Text text) { arguments.area_mm2 = values::area_mm2(text); });
    add("--count", "N", "How many of each (default: 1)",
        [&arguments](Text text) { arguments.count = values::count(text); });
    add("--ball", "BALL", "Mass and length of a ball: 50g/87yd",
        [&arguments](Text text) { arguments.request.ball = values::ball(text); });
    add("--stock", "AMOUNT", "What you have: balls, as in 2.5, or a mass, as in 130g",
        [&arguments](Text text) { arguments.request.stock = values::stock(text); });
    add("--margin", "SHARE", "How much more to have than needed (default: 10%)",
        [&arguments](Text text) { arguments.request.margin = values::margin(text); });
}

void add_record_options(CLI::App& command, YarnNeededArguments& arguments) {
    add_recorded_yarn_options(command, arguments.recorded);
    auto* yarn = command.get_option("--yarn");
    for (const char* option : {"--hook", "--stitch", "--worked", "--state", "--record"})
        command.get_option(option)->needs(yarn);
    command
        .add_option_function<std::string>(
            "--like", [&arguments](const std::string& text) { arguments.like = values::number(text); },
            "Pieces like the weighed one that has this number in your record")
        ->type_name("N")
        ->group("Record")
        ->needs(yarn);
}

}  // namespace

Outcome<CalculatorAnswer> answer_yarn_needed(const YarnNeededArguments& arguments, const Catalog& catalog) {
    const auto request = yarn_request(arguments, catalog);
    if (!request) return request.refusal();
    const auto need = yarn_needed(*request, catalog);
    if (!need) return need.refusal();
    return CalculatorAnswer{yarn_needed_document(*need, *request, arguments.why),
                            yarn_needed_text(*need, *request, arguments.units, arguments.why)};
}

void add_yarn_needed_options(CLI::App& command, YarnNeededArguments& arguments) {
    add_yarn_options(command, arguments);
    add_record_options(command, arguments);
    add_head_options(command, arguments.heads);
    add_wish_options(command, arguments.wish);
    add_units_option(command, arguments.units);
    add_why_option(command, arguments.why);
}

Command add_yarn_needed_command(CLI::App& program) {
    auto* command = program.add_subcommand(
        "yarn-needed", "Grams, length and balls for hats or other pieces, from a weighed swatch");
    const auto arguments = std::make_shared<YarnNeededArguments>();
    add_yarn_needed_options(*command, *arguments);
    add_json_option(*command, arguments->form);
    command->footer(examples);
    return [arguments] { return run_calculator("yarn-needed", *arguments, answer_yarn_needed); };
}

}  // namespace ridgetally
