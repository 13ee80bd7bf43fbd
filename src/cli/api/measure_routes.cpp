#include "cli/api/measure_routes.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "cli/api/found.h"
#include "cli/api/json_arguments.h"
#include "cli/api/measure_request.h"
#include "cli/api/replies.h"
#include "cli/streams.h"
#include "image/encode.h"
#include "report/draw/canvas.h"
#include "report/picture.h"
#include "web/form_parts.h"

namespace ridgetally::api {
namespace {

using web::Reply;
using web::Request;

/// Under 85 lines of one pixel fray; above, a picture of 1600 px takes over half a megabyte (looked at).
constexpr int jpeg_quality = 85;

std::string base64(const std::vector<std::uint8_t>& bytes) {
    constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        unsigned group = 0;
        for (std::size_t k = 0; k < 3; ++k)
            group = (group << 8U) | (i + k < bytes.size() ? bytes[i + k] : 0U);
        for (std::size_t k = 0; k < 4; ++k)
            text += i + k <= bytes.size() ? letters[(group >> (18U - 6U * k)) & 63U] : '=';
    }
    return text;
}

Document picture_document(const cv::Mat& picture) {
    return {{"jpeg_base64", base64(encode_jpeg(picture, jpeg_quality))},
            {"width_px", picture.cols},
            {"height_px", picture.rows}};
}

/// The drawn-in photo without the panel above it: the page says in words what the panel says.
cv::Mat without_panel(const cv::Mat& picture, const cv::Mat& view) {
    return picture.rowRange(picture.rows - view.rows, picture.rows);
}

/// The record of the server, for what is saved and for advice that learns from it.
template <typename Arguments>
Arguments with_record(Arguments arguments, const std::string& record) {
    arguments.photos.save.record = record;
    if constexpr (requires { arguments.hook; }) {
        arguments.hook.recorded.record = record;
        if (!arguments.hook.recorded.yarn) arguments.hook.recorded.yarn = arguments.photos.save.yarn;
    }
    return arguments;
}

/// A photo with what was made of the request.
template <typename Arguments, typename Result>
struct Task {
    Outcome<Arguments> (*read)(const nlohmann::json&);
    Outcome<PhotoCommand<Result>> (*command)(const Arguments&, const Knowledge&);
};

/// The photos of a form, in the order they came.
std::vector<const web::Part*> photos_of(const Request& request) {
    std::vector<const web::Part*> photos;
    for (std::size_t i = 0; i < web::most_photos; ++i) {
        const auto part = request.parts.find(web::photo_part_name(i));
        if (part != request.parts.end()) photos.push_back(&part->second);
    }
    return photos;
}

/// Says which of several photos it is about.
Refusal of_photo(Refusal refusal, const std::string& name) {
    if (refusal.message.find(name) == std::string::npos) refusal.message = name + ": " + refusal.message;
    return refusal;
}

/// A photo that is not measured: the answer where it is the only one, the start of it where others are too.
struct NotMeasured {
    Refusal refusal;
    Document photo;    ///< its size
    Document picture;  ///< reduced
};

/// What came of the photos of one piece. Those that cannot be measured are left out while any other can.
template <typename Result>
struct MeasuredPhotos {
    std::vector<Result> results;
    cv::Mat view;  ///< of the first that was measured, reduced
    std::vector<Warning> left_out;
    std::optional<NotMeasured> first_refused;

    void take(const PhotoCommand<Result>& command, const Photo& photo) {
        Trace no_trace;
        const auto result = command.measure(photo, no_trace);
        const int long_side_px = PictureOptions().long_side_px;
        if (result) {
            if (results.empty()) view = reduced_photo(photo.colour.bgr, long_side_px).clone();
            results.push_back(*result);
            return;
        }
        left_out.push_back({"photo-left-out", photo.file + " was left out: " + result.refusal().message});
        if (first_refused) return;
        first_refused =
            NotMeasured{result.refusal(),
                        {{"file", photo.file}, {"width_px", photo.grey.cols}, {"height_px", photo.grey.rows}},
                        picture_document(reduced_photo(photo.colour.bgr, long_side_px))};
    }
};

Reply not_measured_reply(const std::string& command, const NotMeasured& photo) {
    Document answer;
    answer["refusal"] = refusal_document(photo.refusal, {command, photo.photo["file"].get<std::string>()});
    answer["photo"] = {{"width_px", photo.photo["width_px"]}, {"height_px", photo.photo["height_px"]}};
    answer["picture"] = photo.picture;
    return json_reply(answer, 422);
}

template <typename Result>
Reply measured_reply(const PhotoCommand<Result>& command, const SaveRequest& save,
                     const MeasuredPhotos<Result>& photos) {
    if (photos.results.empty()) return not_measured_reply(command.name, *photos.first_refused);
    Result result = command.combine(photos.results);
    result.warnings.insert(result.warnings.end(), photos.left_out.begin(), photos.left_out.end());
    Document answer;
    Document report = command.document(result, {});
    if (save.yarn) {
        const auto number = save_document(save, report);
        if (!number) return refusal_reply(number.refusal());
    }
    answer["text"] = command.text(result) + saved_text(report);
    answer["picture"] = picture_document(without_panel(command.picture(photos.view, result), photos.view));
    answer["found"] = found_document(result);
    if (save.yarn) answer["saved"] = report["saved"];
    answer["report"] = std::move(report);
    return json_reply(answer);
}

template <typename Arguments, typename Result>
Reply measure(const Context& context, const Task<Arguments, Result>& task, const Arguments& arguments,
              const Request& request) {
    const auto save = ready_to_save(arguments.photos.save, context.knowledge.catalog);
    if (!save) return refusal_reply(save.refusal());
    const auto command = task.command(arguments, context.knowledge);
    if (!command) return refusal_reply(command.refusal());
    MeasuredPhotos<Result> photos;
    const auto parts = photos_of(request);
    for (const web::Part* part : parts) {
        // One at a time is decoded: that is what takes the memory.
        const std::string& bytes = part->content;
        const std::string name = shown_file_name(part->file_name);
        const auto photo = decode_photo({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()},
                                        name, context.photo);
        if (!photo && parts.size() == 1) return refusal_reply(photo.refusal());
        if (!photo) return refusal_reply(of_photo(photo.refusal(), name));
        photos.take(*command, *photo);
    }
    return measured_reply(*command, *save, photos);
}

template <typename Arguments, typename Result>
web::Route route(const Context& context, const std::string& kind, Task<Arguments, Result> task) {
    const auto answer = [&context, task](Request request) {
        const auto photos = photos_of(request);
        const auto empty = [](const web::Part* photo) { return photo->content.empty(); };
        if (photos.empty() || std::any_of(photos.begin(), photos.end(), empty))
            return bad_request(photos.size() > 1 ? "one of the photos is empty"
                                                 : "the form has no part \"photo\"");
        const auto part = request.parts.find("request");
        const auto told = parse_object(part == request.parts.end() ? "" : part->second.content);
        if (!told) return refusal_reply(told.refusal());
        // Refused at once where it is refused at all: waiting for one's turn is for photos.
        auto arguments = task.read(*told);
        if (!arguments) return refusal_reply(arguments.refusal());
        // Held by the work alone, and given up with it.
        auto held = std::make_shared<const Request>(std::move(request));
        return context.workers.run([&context, task,
                                    told = with_record(std::move(arguments).value(), context.record),
                                    held = std::move(held)] { return measure(context, task, told, *held); });
    };
    return {"POST", "/api/measure/" + kind, web::Takes::form, answer};
}

}  // namespace

std::vector<web::Route> measure_routes(const Context& context) {
    return {route(context, "swatch", Task<SwatchArguments, SwatchResult>{swatch_request, swatch_with}),
            route(context, "crown", Task<CrownArguments, CrownResult>{crown_request, crown_with}),
            route(context, "piece", Task<PieceArguments, PieceResult>{piece_request, piece_with})};
}

}  // namespace ridgetally::api
