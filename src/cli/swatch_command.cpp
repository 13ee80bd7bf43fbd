#include <memory>

#include "cli/advice_values.h"
#include "cli/commands.h"
#include "cli/measure_commands.h"
#include "cli/photo_advice.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "report/yarn_use.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally swatch swatch.jpg
  ridgetally swatch --stitch sc --worked flat --annotated marked.jpg swatch.jpg
  ridgetally swatch --units in --terms uk swatch.heic
  ridgetally swatch --scale 120,80,1740,95,16cm --rows -10 swatch.jpg
  ridgetally swatch --reference id1-card --thickness 3mm swatch.jpg
  ridgetally swatch --want 13x16 --hook 5.5mm --hooks 4.5,5,5.5,6 swatch.jpg
  ridgetally swatch --want 13x16 --hook 5.5mm --yarn "Fennelwick DK, Moss" swatch.jpg
  ridgetally swatch --mass 12.4g swatch.jpg                     (and what the fabric takes)
  ridgetally swatch first.jpg second.jpg third.jpg     (one swatch, one answer)
  ridgetally swatch --hook 4.5mm --state washed --save "Fennelwick DK, Moss" swatch.jpg
  ridgetally swatch --batch photos/*.jpg > gauges.jsonl

Exit status: 0 measured, 2 not measured (says why and what to change),
64 wrong use, 65 not a photo, 66 no such file, 70 fault of the program, 74 cannot write.)";

void add_fabric_options(CLI::App& command, SwatchOptions& options) {
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Fabric");
    };
    using Text = const std::string&;
    add("--stitch", "FAMILY",
        "The stitch, in US terms: sc, sc-blo, sc-flo, hdc, hdc-blo, dc, tr or stockinette (default: "
        "recognised)",
        [&options](Text text) { options.stitch = values::stitch(text); });
    add("--worked", "flat|round", "Turned at the end of every row, or in rounds (default: recognised)",
        [&options](Text text) { options.worked = values::worked(text); });
    add("--area", "X,Y,...", "Measure inside this polygon only, in photo pixels",
        [&options](Text text) { options.area_px = values::area(text); });
    add("--rows", "DEGREES",
        "Which way a row runs in the photo: 0 left to right, clockwise positive, good to 15",
        [&options](Text text) { options.row_direction_deg = values::degrees(text); });
    add("--reading", "N",
        "Take a rival reading instead, by its place in \"rivals\" of --json without this option, from 1",
        [&options](Text text) { options.reading = values::count(text); });
    add("--repeat", "SxR", "Textured stitches: one visible repeat is S stitches by R rows, as in 4x2",
        [&options](Text text) { options.repeat = values::repeat(text); });
    add("--thickness", "LENGTH",
        "Height of the fabric's top above the table, as in 3mm (default: from the stitch)",
        [&options](Text text) { options.fabric_thickness_mm = values::length_mm(text); });
    add("--ruler-thickness", "LENGTH", "Height of the ruler's face above the table, as in 1mm",
        [&options](Text text) { options.ruler_thickness_mm = values::length_mm(text); });
}

std::optional<MadeGauge> gauge_of(const SwatchResult& result) {
    return MadeGauge{result.stitches_per_10cm, result.rows_per_10cm, "measured in the photo"};
}

/// What the fabric takes, where the swatch was weighed.
void add_yarn_use(PhotoCommand<SwatchResult>& command, const Measured& mass_g, Why why) {
    const auto weighed = [mass_g](const SwatchResult& result) {
        return weighed_rectangle(mass_g, result.width_mm, result.height_mm, "measured in the photo");
    };
    command.document = [=, swatch_alone = command.document](const SwatchResult& result,
                                                            const DocumentOptions& told) {
        Document document = swatch_alone(result, told);
        document["yarn_use"] = yarn_use_document(mass_g, weighed(result), why);
        return document;
    };
    command.text = [=, swatch_alone = command.text](const SwatchResult& result) {
        return swatch_alone(result) + "\n" + yarn_use_text(mass_g, weighed(result), why);
    };
}

}  // namespace

void add_swatch_options(CLI::App& command, SwatchArguments& arguments) {
    add_fabric_options(command, arguments.measure);
    add_scale_options(command, arguments.measure.scale);
    add_hook_options(command, arguments.hook);
}

Outcome<PhotoCommand<SwatchResult>> swatch_with(const SwatchArguments& arguments,
                                                const Knowledge& knowledge) {
    const TextOptions& text = arguments.photos.output.text;
    const Catalog& catalog = knowledge.catalog;
    PhotoCommand<SwatchResult> command;
    command.name = "swatch";
    command.ahead = [&] { return knowledge.recogniser.loading(); };
    command.measure = [&](const Photo& photo, Trace& trace) {
        return measure_swatch(photo, knowledge, arguments.measure, trace);
    };
    command.combine = combine;
    command.document = swatch_document;
    command.text = [&](const SwatchResult& result) { return swatch_text(result, catalog, text); };
    command.picture = [&](const cv::Mat& view, const SwatchResult& result) {
        return annotated_picture(view, result, catalog, {.terms = text.terms});
    };
    if (const auto& mass_g = arguments.photos.save.mass_g) add_yarn_use(command, *mass_g, arguments.hook.why);
    if (!arguments.hook.want) return command;
    const auto target = photo_target(arguments.hook, arguments.photos, catalog);
    if (!target) return target.refusal();
    add_advice<SwatchResult>(command, *target, gauge_of);
    return command;
}

Command add_swatch_command(CLI::App& program) {
    auto* command = program.add_subcommand("swatch", "Measure stitches and rows of a swatch beside a ruler");
    const auto arguments = std::make_shared<SwatchArguments>();
    add_photo_options(*command, arguments->photos, "The photo, or several photos of the same swatch");
    add_swatch_options(*command, *arguments);
    add_output_options(*command, arguments->photos.output);
    add_terms_option(*command, arguments->photos.output.text.terms);
    share_save_options(*command);
    // A weighed swatch tells what its fabric takes, saved or not.
    auto* mass = command->get_option("--mass");
    mass->remove_needs(command->get_option("--save"));
    mass->excludes(command->get_option("--batch"));
    command->footer(examples);
    return [arguments] {
        const bool explains = arguments->hook.want || arguments->photos.save.mass_g;
        if (arguments->hook.why == Why::shown && !explains) {
            complain("swatch: --why goes with --want or --mass (see ridgetally swatch --help)");
            return ExitStatus::usage;
        }
        if (const auto fault = hand_over(arguments->photos.save, arguments->hook)) {
            complain("swatch: " + *fault + " (see ridgetally swatch --help)");
            return ExitStatus::usage;
        }
        return run_photos<SwatchResult>(arguments->photos, [&](const Knowledge& knowledge) {
            return swatch_with(*arguments, knowledge);
        });
    };
}

}  // namespace ridgetally
