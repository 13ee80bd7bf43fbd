#include <cmath>
#include <memory>

#include "cli/advice_values.h"
#include "cli/commands.h"
#include "cli/deliver.h"
#include "cli/gauge_options.h"
#include "cli/hat_options.h"
#include "cli/hook_options.h"
#include "cli/streams.h"
#include "report/hat.h"
#include "report/yarn_needed.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally yarn-needed --swatch-mass 12.4g --swatch-area 15x15cm --head 56cm --ball 50g/87yd
  ridgetally yarn-needed --swatch-mass 12.4g --measured gauge.json --head 48cm --head 56cm --count 3 --ball 100g/177m --stock 4
  ridgetally yarn-needed --swatch-mass 4g --swatch-area "36 sq in" --area "60x60 in" --ball 50g/87yd --units in
  ridgetally yarn-needed --used 85g --count 4 --stock 350g        (the last one took 85 g)

Exit status: 0 worked out, 2 refused (says why), 64 wrong use, 65 not a document of this program.)";

struct YarnNeededArguments {
    std::optional<Measured> swatch_mass_g;
    std::optional<double> swatch_area_mm2;
    std::optional<std::string> measured_file;
    std::optional<Measured> used_g;
    HeadArguments heads;
    HatWish wish;
    std::optional<double> area_mm2;
    int count = 1;
    YarnRequest request;
    SizeUnit units = SizeUnit::cm;
    Form form = Form::text;
    Why why = Why::hidden;
};

/// A told area is that of the whole swatch, its sides read to half a centimetre where nothing else is known
/// (no source).
Measured told_area(double area_mm2) {
    constexpr double side_half_range_mm = 2.5;
    const double relative = side_half_range_mm / std::sqrt(3.0) / std::sqrt(area_mm2);
    return measured(area_mm2, {{"reading of the width", relative}, {"reading of the height", relative}});
}

Outcome<std::optional<WeighedPiece>> weighed_swatch(const YarnNeededArguments& arguments) {
    if (!arguments.swatch_mass_g) return std::optional<WeighedPiece>();
    if (arguments.swatch_area_mm2)
        return std::optional(
            WeighedPiece{*arguments.swatch_mass_g, told_area(*arguments.swatch_area_mm2), "the maker"});
    const Refusal none{
        "advice", "no-area", "the area of the swatch is not known",
        "Tell it with --swatch-area, as in 15x15cm, or --measured with a photo that shows the whole swatch."};
    if (!arguments.measured_file) return none;
    const auto swatch = measured_swatch(*arguments.measured_file);
    if (!swatch) return swatch.refusal();
    if (!swatch->width_mm || !swatch->height_mm) return none;
    const Measured& height = *swatch->height_mm;
    const Measured area = with(scaled(*swatch->width_mm, height.value), {{"height", height.relative_std()}});
    return std::optional(WeighedPiece{*arguments.swatch_mass_g, area, swatch->gauge.source});
}

Outcome<std::vector<PiecesWanted>> pieces_wanted(const YarnNeededArguments& arguments,
                                                 const Catalog& catalog) {
    std::vector<PiecesWanted> pieces;
    if (arguments.used_g)
        pieces.push_back({"piece like the last", arguments.count, std::nullopt, arguments.used_g});
    if (arguments.area_mm2) pieces.push_back({"piece", arguments.count, arguments.area_mm2, std::nullopt});
    if (!arguments.heads.empty()) {
        const auto heads = heads_from(arguments.heads, catalog);
        if (!heads) return heads.refusal();
        for (const auto& head : *heads) {
            if (!is_high_enough(head, arguments.wish, catalog.hat_practice))
                return Refusal{"advice", "hat-too-low", "a hat so low has no side below its crown",
                               "Tell more height, or leave it away."};
            const HatShape hat = hat_shape(head, arguments.wish, catalog.hat_practice);
            pieces.push_back({"hat for " + length_text(head.circumference_mm, arguments.units),
                              arguments.count, hat.area_mm2, std::nullopt});
        }
    }
    if (pieces.empty())
        return Refusal{"advice", "no-pieces", "nothing is to be made",
                       "Tell hats with --head, a piece with --area, or --used with what the last one took."};
    return pieces;
}

ExitStatus run_yarn_needed(const YarnNeededArguments& arguments) {
    const PhotoOfCommand no_photo{"yarn-needed", ""};
    const auto refused = [&](const Refusal& refusal) {
        return deliver_refusal(refusal, no_photo, arguments.form);
    };
    const auto catalog = load_catalog(models_folder());
    if (!catalog) return refused(catalog.refusal());
    YarnRequest request = arguments.request;
    const auto weighed = weighed_swatch(arguments);
    if (!weighed) return refused(weighed.refusal());
    request.weighed = *weighed;
    const auto pieces = pieces_wanted(arguments, *catalog);
    if (!pieces) return refused(pieces.refusal());
    request.pieces = *pieces;
    const auto need = yarn_needed(request, *catalog);
    if (!need) return refused(need.refusal());
    if (arguments.form == Form::json)
        return write_output(json_text(yarn_needed_document(*need, request, arguments.why)));
    return write_output(yarn_needed_text(*need, request, arguments.units, arguments.why));
}

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
    add("--measured", "FILE", "The swatch's size as ridgetally swatch --json wrote it into FILE",
        [&arguments](Text text) { arguments.measured_file = text; })
        ->excludes(area)
        ->needs(mass);
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

}  // namespace

Command add_yarn_needed_command(CLI::App& program) {
    auto* command = program.add_subcommand(
        "yarn-needed", "Grams, length and balls for hats or other pieces, from a weighed swatch");
    const auto arguments = std::make_shared<YarnNeededArguments>();
    add_yarn_options(*command, *arguments);
    add_head_options(*command, arguments->heads);
    add_wish_options(*command, arguments->wish);
    add_json_option(*command, arguments->form);
    add_units_option(*command, arguments->units);
    add_why_option(*command, arguments->why);
    command->footer(examples);
    return [arguments] { return run_yarn_needed(*arguments); };
}

}  // namespace ridgetally
