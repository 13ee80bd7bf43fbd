#include "cli/swatch_run.h"

#include <exception>
#include <optional>

#include "cli/batch.h"
#include "cli/deliver.h"
#include "cli/picture_file.h"
#include "cli/streams.h"
#include "cli/trace_folder.h"
#include "report/draw/canvas.h"
#include "report/picture.h"

namespace ridgetally {
namespace {

constexpr const char* command = "swatch";

/// One photo, measured, with a reduced copy to draw on where a picture is wanted.
struct MeasuredPhoto {
    SwatchResult result;
    cv::Mat view_bgr;
};

/// The same, with what became of its trace.
struct PhotoOutcome {
    Outcome<MeasuredPhoto> measured;
    ExitStatus trace = ExitStatus::ok;
};

class Run {
  public:
    Run(const SwatchArguments& arguments, const Knowledge& knowledge)
        : arguments_(arguments), knowledge_(knowledge) {}

    [[nodiscard]] ExitStatus together() const;
    [[nodiscard]] ExitStatus separate() const;

  private:
    [[nodiscard]] PhotoOutcome measure(std::size_t index) const;
    [[nodiscard]] BatchLine line(std::size_t index) const;
    [[nodiscard]] cv::Mat picture_of(const MeasuredPhoto& photo) const {
        PictureOptions options;
        options.terms = arguments_.output.text.terms;
        return annotated_picture(photo.view_bgr, photo.result, knowledge_.catalog, options);
    }
    [[nodiscard]] ExitStatus deliver(const MeasuredPhoto& photo) const;

    const SwatchArguments& arguments_;
    const Knowledge& knowledge_;
};

PhotoOutcome Run::measure(std::size_t index) const {
    const std::string& file = arguments_.photos[index];
    auto photo = read_photo(file);
    if (!photo) return {photo.refusal()};
    std::optional<std::string> folder = arguments_.output.trace;
    if (folder && arguments_.photos.size() > 1) *folder += "/" + numbered_stem(index, file);
    TraceFolder trace(folder);
    auto result = measure_swatch(*photo, knowledge_, arguments_.measure, trace.trace());
    const ExitStatus traced = trace.finish();
    if (!result) return {result.refusal(), traced};
    MeasuredPhoto measured{std::move(result).value(), {}};
    if (arguments_.output.annotated) {
        measured.view_bgr = reduced_photo(photo->bgr, PictureOptions().long_side_px).clone();
    }
    return {std::move(measured), traced};
}

ExitStatus Run::deliver(const MeasuredPhoto& photo) const {
    const OutputOptions& output = arguments_.output;
    ExitStatus status = ExitStatus::ok;
    DocumentOptions document;
    if (output.annotated) {
        status = deliver_picture(*output.annotated, picture_of(photo));
        if (status == ExitStatus::ok) document.annotated = output.annotated;
    }
    if (output.form == Form::json) {
        return worse_of(status, write_output(json_text(swatch_document(photo.result, document))));
    }
    std::string text = swatch_text(photo.result, knowledge_.catalog, output.text);
    if (document.annotated) text += "\nPicture: " + *document.annotated + "\n";
    return worse_of(status, write_output(text));
}

ExitStatus Run::together() const {
    std::vector<SwatchResult> results;
    std::vector<Warning> left_out;
    std::optional<Refusal> first_refusal;
    cv::Mat view;
    ExitStatus traced = ExitStatus::ok;
    for (std::size_t i = 0; i < arguments_.photos.size(); ++i) {
        auto photo = measure(i);
        traced = worse_of(traced, photo.trace);
        if (photo.measured) {
            if (results.empty()) view = photo.measured->view_bgr;
            results.push_back(photo.measured->result);
            continue;
        }
        const Refusal& refusal = photo.measured.refusal();
        const PhotoOfCommand which{command, arguments_.photos[i]};
        if (status_of(refusal) != ExitStatus::refused)
            return deliver_refusal(refusal, which, arguments_.output.form);
        if (!first_refusal) first_refusal = refusal;
        left_out.push_back({"photo-left-out", arguments_.photos[i] + " was left out: " + refusal.message});
    }
    if (results.empty()) {
        const PhotoOfCommand which{command, arguments_.photos.front()};
        return worse_of(traced, deliver_refusal(*first_refusal, which, arguments_.output.form));
    }
    MeasuredPhoto all{combine(results), view};
    all.result.warnings.insert(all.result.warnings.end(), left_out.begin(), left_out.end());
    return worse_of(traced, deliver(all));
}

BatchLine Run::line(std::size_t index) const {
    const std::string& file = arguments_.photos[index];
    try {
        auto photo = measure(index);
        if (!photo.measured) {
            const Refusal& refusal = photo.measured.refusal();
            return {refusal_line(refusal, {command, file}), worse_of(status_of(refusal), photo.trace)};
        }
        DocumentOptions document;
        ExitStatus status = photo.trace;
        if (arguments_.output.annotated) {
            const std::string picture =
                *arguments_.output.annotated + "/" + numbered_stem(index, file) + ".jpg";
            const ExitStatus written = deliver_picture(picture, picture_of(*photo.measured));
            if (written == ExitStatus::ok) document.annotated = picture;
            status = worse_of(status, written);
        }
        return {json_line(swatch_document(photo.measured->result, document)), status};
    } catch (const std::exception& fault) {
        const auto status = ExitStatus::internal;
        return {json_line(failure_document(static_cast<int>(status), fault.what(), {command, file})), status};
    }
}

ExitStatus Run::separate() const {
    if (arguments_.output.annotated) {
        if (const auto made = make_folder(*arguments_.output.annotated); !made) {
            complain(made.refusal().message);
            return ExitStatus::io;
        }
    }
    if (arguments_.jobs > 1) cv::setNumThreads(1);  // the photos keep the cores busy
    return run_batch(arguments_.photos.size(), {arguments_.jobs},
                     [this](std::size_t index) { return line(index); });
}

}  // namespace

ExitStatus run_swatch(const SwatchArguments& arguments) {
    const bool separate = arguments.photos_are == PhotosAre::separate;
    const auto& annotated = arguments.output.annotated;
    if (annotated && !separate && !is_picture_name(*annotated)) {
        complain("--annotated " + *annotated + ": the picture's name must end in .jpg or .png");
        return ExitStatus::usage;
    }
    const auto knowledge = load_knowledge();
    if (!knowledge) {
        complain(knowledge.refusal().message);
        return status_of(knowledge.refusal());
    }
    const Run run(arguments, *knowledge);
    return separate ? run.separate() : run.together();
}

}  // namespace ridgetally
