#include <memory>
#include <string>

#include "cli/commands.h"
#include "cli/deliver.h"
#include "cli/picture_file.h"
#include "cli/shared_options.h"
#include "cli/streams.h"
#include "cli/trace_folder.h"
#include "report/picture.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally scale ruler.jpg
  ridgetally scale --annotated marked.jpg ruler.jpg
  ridgetally scale --ruler inch --json tape.jpg

Exit status: as for swatch.)";

struct ScaleArguments {
    std::string photo;
    ScaleOptions measure;
    OutputOptions output;
};

ExitStatus deliver(const Photo& photo, const ScaleReport& report, const Catalog& catalog,
                   const OutputOptions& output) {
    ExitStatus status = ExitStatus::ok;
    DocumentOptions document;
    if (output.annotated) {
        status = deliver_picture(*output.annotated, annotated_picture(photo.colour.bgr, report, catalog));
        if (status == ExitStatus::ok) document.annotated = output.annotated;
    }
    if (output.form == Form::json) {
        return worse_of(status, write_output(json_text(scale_document(report, document))));
    }
    std::string text = scale_text(report, catalog, output.text);
    if (document.annotated) text += "\nPicture: " + *document.annotated + "\n";
    return worse_of(status, write_output(text));
}

ExitStatus run_scale(const ScaleArguments& arguments) {
    const OutputOptions& output = arguments.output;
    if (output.annotated && !is_picture_name(*output.annotated)) {
        complain("--annotated " + *output.annotated + ": the picture's name must end in .jpg or .png");
        return ExitStatus::usage;
    }
    const auto catalog = load_catalog(models_folder());
    if (!catalog) {
        complain(catalog.refusal().message);
        return status_of(catalog.refusal());
    }
    const PhotoOfCommand which{"scale", arguments.photo};
    const auto photo = read_photo(arguments.photo);
    if (!photo) return deliver_refusal(photo.refusal(), which, output.form);
    TraceFolder trace(output.trace);
    const auto report = measure_scale(*photo, *catalog, arguments.measure, trace.trace());
    const ExitStatus traced = trace.finish();
    if (!report) return worse_of(traced, deliver_refusal(report.refusal(), which, output.form));
    return worse_of(traced, deliver(*photo, *report, *catalog, output));
}

}  // namespace

Command add_scale_command(CLI::App& program) {
    auto* command = program.add_subcommand("scale", "Read the ruler in a photo alone and list its marks");
    const auto arguments = std::make_shared<ScaleArguments>();
    command->add_option("PHOTO", arguments->photo, "The photo")->required()->type_name("");
    add_scale_options(*command, arguments->measure);
    add_output_options(*command, arguments->output);
    command->footer(examples);
    return [arguments] { return run_scale(*arguments); };
}

}  // namespace ridgetally
