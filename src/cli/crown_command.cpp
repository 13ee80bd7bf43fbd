#include <memory>

#include "cli/commands.h"
#include "cli/photo_runs.h"
#include "cli/values.h"
#include "pipeline/measure_crown.h"
#include "report/crown_document.h"
#include "report/crown_text.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally crown crown.jpg
  ridgetally crown --stitch sc-blo --json crown.jpg

Exit status: as for swatch.)";

struct CrownArguments {
    PhotoArguments photos;
    CrownOptions measure;
};

void add_crown_options(CLI::App& command, CrownOptions& options) {
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
    add("--thickness", "LENGTH",
        "Height of the crown's top above the table, as in 6mm (default: from its stitches)",
        [&options](Text text) { options.crown_thickness_mm = values::length_mm(text); });
    add("--ruler-thickness", "LENGTH", "Height of the ruler's face above the table, as in 1mm",
        [&options](Text text) { options.ruler_thickness_mm = values::length_mm(text); });
}

PhotoCommand<CrownResult> crown_with(const CrownArguments& arguments, const Knowledge& knowledge) {
    PhotoCommand<CrownResult> command;
    command.name = "crown";
    command.measure = [&](const Photo& photo, Trace& trace) {
        return measure_crown(photo, knowledge, arguments.measure, trace);
    };
    command.combine = [](const std::vector<CrownResult>& results) { return results.front(); };
    command.document = crown_document;
    command.text = [&](const CrownResult& result) {
        return crown_text(result, knowledge.catalog, arguments.photos.output.text);
    };
    command.picture = [](const cv::Mat& view, const CrownResult&) { return view; };
    return command;
}

}  // namespace

Command add_crown_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("crown", "Measure a crown worked in rounds: diameter, rounds, stitches");
    const auto arguments = std::make_shared<CrownArguments>();
    add_photo_options(*command, arguments->photos, "The photo, or several photos of the same crown");
    add_crown_options(*command, arguments->measure);
    add_scale_options(*command, arguments->measure.scale);
    add_output_options(*command, arguments->photos.output);
    add_terms_option(*command, arguments->photos.output.text.terms);
    command->footer(examples);
    return [arguments] {
        return run_photos<CrownResult>(
            arguments->photos, [&](const Knowledge& knowledge) { return crown_with(*arguments, knowledge); });
    };
}

}  // namespace ridgetally
