#include "cli/shared_options.h"

#include <algorithm>
#include <thread>

#include "cli/values.h"

namespace ridgetally {

void add_photo_options(CLI::App& command, PhotoArguments& arguments, const std::string& photos_help) {
    arguments.command = command.get_name();
    arguments.jobs = std::max(1U, std::thread::hardware_concurrency());
    command.add_option("PHOTO", arguments.photos, photos_help)->required()->type_name("");
    auto* batch = command.add_flag_callback(
        "--batch", [&arguments] { arguments.photos_are = PhotosAre::separate; },
        "Measure every photo by itself: one JSON line each, in the order given");
    batch->group("Many photos");
    command
        .add_option_function<std::string>(
            "--jobs", [&arguments](const std::string& text) { arguments.jobs = values::jobs(text); },
            "Photos measured at the same time (default: one per core)")
        ->type_name("N")
        ->needs(batch)
        ->group("Many photos");
    add_save_options(command, arguments.save);
    command.get_option("--save")->excludes(batch);
}

void add_scale_options(CLI::App& command, ScaleOptions& options) {
    const std::string group = "Scale";
    auto* ruler = command.add_option_function<std::string>(
        "--ruler", [&options](const std::string& text) { options.unit = values::ruler_unit(text); },
        "What the ruler counts in: mm or inch (default: read from its marks)");
    auto* points = command.add_option_function<std::string>(
        "--scale", [&options](const std::string& text) { options.two_points = values::two_points(text); },
        "Two points of the photo and their distance instead of a ruler: X1,Y1,X2,Y2,LENGTH (mm unless a unit "
        "is given)");
    auto* reference = command.add_option_function<std::string>(
        "--reference", [&options](const std::string& text) { options.flat_reference = text; },
        "A flat thing of known size instead of a ruler: id1-card, a4, letter or coin:DIAMETER");
    auto* correction = command.add_option_function<std::string>(
        "--ruler-correction",
        [&options](const std::string& text) { options.ruler_correction = values::correction(text); },
        "True length over printed length of your tape: 1.012, or 101.2:100");
    ruler->type_name("UNIT")->group(group)->excludes(points)->excludes(reference);
    points->type_name("POINTS")->group(group)->excludes(reference);
    reference->type_name("OBJECT")->group(group)->excludes(correction);
    correction->type_name("FACTOR")->group(group)->excludes(points);
}

void add_json_option(CLI::App& command, Form& form) {
    command
        .add_flag_callback(
            "--json", [&form] { form = Form::json; }, "One JSON document on standard output")
        ->group("Output");
}

void add_units_option(CLI::App& command, SizeUnit& units) {
    command
        .add_option_function<std::string>(
            "--units", [&units](const std::string& text) { units = values::size_unit(text); },
            "Sizes in cm or in inches (default: cm)")
        ->type_name("cm|in")
        ->group("Output");
}

void add_output_options(CLI::App& command, OutputOptions& options) {
    const std::string group = "Output";
    add_json_option(command, options.form);
    command
        .add_option_function<std::string>(
            "--annotated", [&options](const std::string& file) { options.annotated = file; },
            "Write the photo with everything that was found drawn in: FILE.jpg or FILE.png (a folder with "
            "--batch)")
        ->type_name("FILE")
        ->group(group);
    command
        .add_option_function<std::string>(
            "--trace", [&options](const std::string& folder) { options.trace = folder; },
            "Write the pictures and notes of every stage into a folder")
        ->type_name("FOLDER")
        ->group(group);
    add_units_option(command, options.text.units);
    command
        .add_flag_callback(
            "--explain", [&options] { options.text.detail = Detail::explained; },
            "Say what the plus-or-minus is made of")
        ->group(group);
}

void add_terms_option(CLI::App& command, Terms& terms) {
    command
        .add_option_function<std::string>(
            "--terms", [&terms](const std::string& text) { terms = values::terms(text); },
            "Stitch names of the report, US or UK (default: us)")
        ->type_name("us|uk")
        ->group("Output");
}

}  // namespace ridgetally
