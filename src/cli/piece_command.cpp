#include <memory>

#include "cli/commands.h"
#include "cli/crown_values.h"
#include "cli/measure_commands.h"
#include "cli/photo_runs.h"
#include "cli/values.h"
#include "pipeline/measure_piece.h"
#include "report/piece_report.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally piece hat.jpg
  ridgetally piece --want-width 26..27cm --want-height 21cm hat.jpg

Lay the piece flat and upright in the photo, the brim of a hat along the bottom.
Exit status: as for swatch.)";

void add_size_options(CLI::App& command, PieceArguments& arguments) {
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Piece");
    };
    using Text = const std::string&;
    add("--want-width", "LENGTH", "Width it should have: 26cm, or a range as in 26..27cm",
        [&arguments](Text text) { arguments.want_width = values::length_range(text); });
    add("--want-height", "LENGTH", "Height it should have",
        [&arguments](Text text) { arguments.want_height = values::length_range(text); });
    add("--area", "X,Y,...", "Measure inside this polygon only, in photo pixels",
        [&arguments](Text text) { arguments.measure.area_px = values::area(text); });
    add("--width-direction", "DEGREES",
        "Which way its width runs in the photo: 0 left to right, clockwise positive",
        [&arguments](Text text) { arguments.measure.width_direction_deg = values::degrees(text); });
    add("--thickness", "LENGTH", "Height of its top above the table, as in 8mm (default: 8mm, give or take)",
        [&arguments](Text text) { arguments.measure.piece_thickness_mm = values::length_mm(text); });
    add("--ruler-thickness", "LENGTH", "Height of the ruler's face above the table, as in 1mm",
        [&arguments](Text text) { arguments.measure.ruler_thickness_mm = values::length_mm(text); });
}

}  // namespace

void add_piece_options(CLI::App& command, PieceArguments& arguments) {
    add_size_options(command, arguments);
    add_scale_options(command, arguments.measure.scale);
}

Outcome<PhotoCommand<PieceResult>> piece_with(const PieceArguments& arguments, const Knowledge& knowledge) {
    PhotoCommand<PieceResult> command;
    command.name = "piece";
    command.measure = [&](const Photo& photo, Trace& trace) {
        return measure_piece(photo, knowledge, arguments.measure, trace);
    };
    command.combine = combine_pieces;
    const auto checks = [&](const PieceResult& result) {
        std::vector<CrownCheck> all;
        if (arguments.want_width) all.push_back(check_size("width", result.width_mm, *arguments.want_width));
        if (arguments.want_height)
            all.push_back(check_size("height", result.height_mm, *arguments.want_height));
        return all;
    };
    command.document = [checks](const PieceResult& result, const DocumentOptions& options) {
        return piece_document(result, checks(result), options);
    };
    command.text = [&, checks](const PieceResult& result) {
        return piece_text(result, checks(result), knowledge.catalog, arguments.photos.output.text);
    };
    command.picture = [](const cv::Mat& view, const PieceResult& result) {
        return piece_picture(view, result);
    };
    return command;
}

Command add_piece_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("piece", "Measure width and height of a piece lying flat, a hat say");
    const auto arguments = std::make_shared<PieceArguments>();
    add_photo_options(*command, arguments->photos, "The photo, or several photos of the same piece");
    add_piece_options(*command, *arguments);
    add_output_options(*command, arguments->photos.output);
    command->footer(examples);
    return [arguments] {
        return run_photos<PieceResult>(
            arguments->photos, [&](const Knowledge& knowledge) { return piece_with(*arguments, knowledge); });
    };
}

}  // namespace ridgetally
