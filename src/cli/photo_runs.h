#pragma once

#include <exception>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/batch.h"
#include "cli/deliver.h"
#include "cli/photo_command.h"
#include "cli/picture_file.h"
#include "cli/shared_options.h"
#include "cli/streams.h"
#include "cli/trace_folder.h"
#include "image/photo.h"
#include "pipeline/swatch_result.h"
#include "report/document.h"
#include "report/draw/canvas.h"
#include "report/picture.h"

namespace ridgetally {

/// Works through the photos: all of one piece as one answer, or each by itself as a line of JSON.
template <typename Result>
class PhotoRuns {
  public:
    PhotoRuns(const PhotoArguments& arguments, SaveRequest save, PhotoCommand<Result> command)
        : arguments_(arguments), save_(std::move(save)), command_(std::move(command)) {}

    [[nodiscard]] ExitStatus run() const {
        return arguments_.photos_are == PhotosAre::separate ? separate() : together();
    }

  private:
    /// One photo, measured, with a reduced copy to draw on where a picture is wanted.
    struct MeasuredPhoto {
        Result result;
        cv::Mat view_bgr;
    };
    /// The same, with what became of its trace.
    struct PhotoOutcome {
        Outcome<MeasuredPhoto> measured;
        ExitStatus trace = ExitStatus::ok;
    };

    [[nodiscard]] PhotoOutcome measure(std::size_t index) const;
    [[nodiscard]] ExitStatus deliver(const MeasuredPhoto& photo) const;
    [[nodiscard]] ExitStatus together() const;
    [[nodiscard]] BatchLine line(std::size_t index) const;
    [[nodiscard]] ExitStatus separate() const;
    [[nodiscard]] PhotoOfCommand which(std::size_t index) const {
        return {command_.name, arguments_.photos[index]};
    }

    const PhotoArguments& arguments_;
    SaveRequest save_;  ///< with its hook in mm
    PhotoCommand<Result> command_;
};

template <typename Result>
typename PhotoRuns<Result>::PhotoOutcome PhotoRuns<Result>::measure(std::size_t index) const {
    const std::string& file = arguments_.photos[index];
    const auto ahead = command_.ahead ? command_.ahead() : std::future<void>();
    auto photo = read_photo(file);
    if (!photo) return {photo.refusal()};
    std::optional<std::string> folder = arguments_.output.trace;
    if (folder && arguments_.photos.size() > 1) *folder += "/" + numbered_stem(index, file);
    TraceFolder trace(folder);
    auto result = command_.measure(*photo, trace.trace());
    const ExitStatus traced = trace.finish();
    if (!result) return {result.refusal(), traced};
    MeasuredPhoto measured{std::move(result).value(), {}};
    if (arguments_.output.annotated) {
        measured.view_bgr = reduced_photo(photo->colour.bgr, PictureOptions().long_side_px).clone();
    }
    return {std::move(measured), traced};
}

template <typename Result>
ExitStatus PhotoRuns<Result>::deliver(const MeasuredPhoto& photo) const {
    const OutputOptions& output = arguments_.output;
    ExitStatus status = ExitStatus::ok;
    DocumentOptions document;
    if (output.annotated) {
        status = deliver_picture(*output.annotated, command_.picture(photo.view_bgr, photo.result));
        if (status == ExitStatus::ok) document.annotated = output.annotated;
    }
    Document report = command_.document(photo.result, document);
    status = worse_of(status, save_report(save_, report));
    if (output.form == Form::json) return worse_of(status, write_output(json_text(report)));
    std::string text = command_.text(photo.result) + saved_text(report);
    if (document.annotated) text += "\nPicture: " + *document.annotated + "\n";
    return worse_of(status, write_output(text));
}

template <typename Result>
ExitStatus PhotoRuns<Result>::together() const {
    std::vector<Result> results;
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
        if (status_of(refusal) != ExitStatus::refused)
            return deliver_refusal(refusal, which(i), arguments_.output.form);
        if (!first_refusal) first_refusal = refusal;
        left_out.push_back({"photo-left-out", arguments_.photos[i] + " was left out: " + refusal.message});
    }
    if (results.empty())
        return worse_of(traced, deliver_refusal(*first_refusal, which(0), arguments_.output.form));
    MeasuredPhoto all{command_.combine(results), view};
    all.result.warnings.insert(all.result.warnings.end(), left_out.begin(), left_out.end());
    return worse_of(traced, deliver(all));
}

template <typename Result>
BatchLine PhotoRuns<Result>::line(std::size_t index) const {
    const std::string& file = arguments_.photos[index];
    try {
        auto photo = measure(index);
        if (!photo.measured) {
            const Refusal& refusal = photo.measured.refusal();
            return {refusal_line(refusal, which(index)), worse_of(status_of(refusal), photo.trace)};
        }
        DocumentOptions document;
        ExitStatus status = photo.trace;
        if (arguments_.output.annotated) {
            const std::string picture =
                *arguments_.output.annotated + "/" + numbered_stem(index, file) + ".jpg";
            const ExitStatus written =
                deliver_picture(picture, command_.picture(photo.measured->view_bgr, photo.measured->result));
            if (written == ExitStatus::ok) document.annotated = picture;
            status = worse_of(status, written);
        }
        return {json_line(command_.document(photo.measured->result, document)), status};
    } catch (const std::exception& fault) {
        const auto status = ExitStatus::internal;
        return {json_line(failure_document(static_cast<int>(status), fault.what(), which(index))), status};
    }
}

template <typename Result>
ExitStatus PhotoRuns<Result>::separate() const {
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

/// Loads what measuring needs, then runs the command made with it, or tells why there is none. Complains of a
/// picture name that no picture can be written to.
template <typename Result>
[[nodiscard]] ExitStatus run_photos(
    const PhotoArguments& arguments,
    const std::function<Outcome<PhotoCommand<Result>>(const Knowledge&)>& command_with) {
    const auto& annotated = arguments.output.annotated;
    if (annotated && arguments.photos_are == PhotosAre::of_one_piece && !is_picture_name(*annotated)) {
        complain("--annotated " + *annotated + ": the picture's name must end in .jpg or .png");
        return ExitStatus::usage;
    }
    const auto knowledge = load_knowledge();
    if (!knowledge) {
        complain(knowledge.refusal().message);
        return status_of(knowledge.refusal());
    }
    const auto save = ready_to_save(arguments.save, knowledge->catalog);
    if (!save) return deliver_refusal(save.refusal(), {arguments.command, ""}, arguments.output.form);
    const auto command = command_with(*knowledge);
    if (!command) return deliver_refusal(command.refusal(), {arguments.command, ""}, arguments.output.form);
    return PhotoRuns<Result>(arguments, *save, *command).run();
}

}  // namespace ridgetally
