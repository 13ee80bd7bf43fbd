#include <memory>

#include "cli/commands.h"
#include "cli/crown_values.h"
#include "cli/measure_commands.h"
#include "cli/photo_advice.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "core/units.h"
#include "pipeline/measure_crown.h"
#include "report/crown_document.h"
#include "report/crown_picture.h"
#include "report/crown_text.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally crown crown.jpg
  ridgetally crown --stitch sc-blo --json crown.jpg
  ridgetally crown --want 16cm --stitches 45 --annotated marked.jpg crown.jpg
  ridgetally crown --want 6..6.5in --stitch-width 8.4mm crown.jpg
  ridgetally crown --plan 4cm,6.4cm,8.8cm,11.2cm crown.jpg
  ridgetally crown --want-gauge 13x16 --hook 5.5mm --hooks 4.5,5,5.5,6 crown.jpg
  ridgetally crown --batch crowns/*.jpg > crowns.jsonl

Exit status: as for swatch.)";

void add_check_options(CLI::App& command, CrownWishes& wishes) {
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Checks");
    };
    using Text = const std::string&;
    add("--want", "LENGTH", "Diameter it should have: 16cm, or a range as in 6..6.5in",
        [&wishes](Text text) { wishes.diameter = values::length_range(text); });
    add("--stitches", "N", "Stitches the last round should have",
        [&wishes](Text text) { wishes.last_round_stitches = values::stitch_count(text); });
    add("--stitch-width", "LENGTH",
        "Width of a stitch in a flat swatch of the same yarn and hook: tells ruffling from cupping",
        [&wishes](Text text) { wishes.stitch_width_mm = values::length_mm(text); });
    add("--plan", "LENGTHS", "Diameters it should have after each round, from the first: 4cm,6.4cm,8.8cm",
        [&wishes](Text text) { wishes.plan_mm = values::lengths_mm(text); });
}

CrownFigures figures_of(const CrownResult& result) {
    CrownFigures figures;
    figures.diameter_mm = result.diameter_mm;
    if (const auto& last = result.last_round_stitches) {
        figures.last_round_stitches = last->count;
        figures.least_stitches = last->least;
        figures.most_stitches = last->most;
    }
    if (result.rounds_per_10cm) figures.row_height_mm = reciprocal(span_10cm_mm, *result.rounds_per_10cm);
    for (const auto& round : result.round_diameters)
        figures.round_sizes.push_back({round.round, round.diameter_mm});
    if (result.rounds) figures.rounds = static_cast<int>(result.rounds->count.value);
    return figures;
}

void add_shape_options(CLI::App& command, CrownOptions& options) {
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Crown");
    };
    using Text = const std::string&;
    add("--stitch", "FAMILY",
        "The stitch, in US terms: sc, sc-blo, sc-flo, hdc, hdc-blo, dc or tr (default: recognised)",
        [&options](Text text) { options.stitch = values::stitch(text); });
    add("--worked", "round", "A crown is worked in rounds; taken so that commands are alike", [](Text text) {
        if (values::worked(text) != Worked::round)
            throw CLI::ValidationError("a crown is worked in rounds: round expected");
    });
    add("--area", "X,Y,...", "The crown lies inside this polygon, in photo pixels",
        [&options](Text text) { options.area_px = values::area(text); });
    add("--rim", "X,Y,...", "Points on the crown's edge, in photo pixels, where it is not found by itself",
        [&options](Text text) { options.rim_px = values::area(text); });
    add("--thickness", "LENGTH",
        "Height of the crown's top above the table, as in 6mm (default: from its stitches)",
        [&options](Text text) { options.crown_thickness_mm = values::length_mm(text); });
    add("--ruler-thickness", "LENGTH", "Height of the ruler's face above the table, as in 1mm",
        [&options](Text text) { options.ruler_thickness_mm = values::length_mm(text); });
}

std::optional<MadeGauge> gauge_of(const CrownResult& result) {
    if (!result.stitches_per_10cm) return std::nullopt;
    return MadeGauge{*result.stitches_per_10cm, result.rounds_per_10cm, "measured in the photo"};
}

}  // namespace

void add_crown_options(CLI::App& command, CrownArguments& arguments) {
    add_shape_options(command, arguments.measure);
    add_check_options(command, arguments.wishes);
    add_scale_options(command, arguments.measure.scale);
    add_hook_options(command, arguments.hook, crown_target_option);
}

Outcome<PhotoCommand<CrownResult>> crown_with(const CrownArguments& arguments, const Knowledge& knowledge) {
    PhotoCommand<CrownResult> command;
    command.name = "crown";
    command.ahead = [&] { return knowledge.recogniser.loading(); };
    command.measure = [&](const Photo& photo, Trace& trace) {
        return measure_crown(photo, knowledge, arguments.measure, trace);
    };
    command.combine = combine_crowns;
    const auto checks = [&](const CrownResult& result) {
        return check_crown(figures_of(result), arguments.wishes);
    };
    command.document = [checks](const CrownResult& result, const DocumentOptions& options) {
        return crown_document(result, checks(result), options);
    };
    const TextOptions& text = arguments.photos.output.text;
    command.text = [&, checks](const CrownResult& result) {
        return crown_text(result, checks(result), knowledge.catalog, text);
    };
    command.picture = [&](const cv::Mat& view, const CrownResult& result) {
        return crown_picture(view, result, knowledge.catalog, {.terms = text.terms});
    };
    if (!arguments.hook.want) return command;
    const auto target = photo_target(arguments.hook, arguments.photos, knowledge.catalog);
    if (!target) return target.refusal();
    add_advice<CrownResult>(command, *target, gauge_of);
    return command;
}

Command add_crown_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("crown", "Measure a crown worked in rounds: diameter, rounds, stitches");
    const auto arguments = std::make_shared<CrownArguments>();
    add_photo_options(*command, arguments->photos, "The photo, or several photos of the same crown");
    add_crown_options(*command, *arguments);
    add_output_options(*command, arguments->photos.output);
    add_terms_option(*command, arguments->photos.output.text.terms);
    share_save_options(*command);
    command->get_option("--why")->needs(command->get_option(crown_target_option));
    command->footer(examples);
    return [arguments] {
        if (const auto fault = hand_over(arguments->photos.save, arguments->hook, crown_target_option)) {
            complain("crown: " + *fault + " (see ridgetally crown --help)");
            return ExitStatus::usage;
        }
        return run_photos<CrownResult>(
            arguments->photos, [&](const Knowledge& knowledge) { return crown_with(*arguments, knowledge); });
    };
}

}  // namespace ridgetally
