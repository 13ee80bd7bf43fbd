#include "cli/trace_folder.h"

#include <array>
#include <cstdint>
#include <cstdio>
#include <span>
#include <utility>

#include "cli/picture_file.h"
#include "cli/streams.h"
#include "image/encode.h"

namespace ridgetally {
namespace {

/// Eight bits, one or three channels; pictures of other kinds are stretched from their least to their largest
/// value.
cv::Mat showable(const cv::Mat& picture) {
    if (picture.type() == CV_8UC1 || picture.type() == CV_8UC3) return picture;
    cv::Mat one;
    cv::extractChannel(picture, one, 0);
    cv::Mat stretched;
    cv::normalize(one, stretched, 0.0, 255.0, cv::NORM_MINMAX, CV_8U);
    return stretched;
}

}  // namespace

TraceFolder::TraceFolder(std::optional<std::string> folder) : folder_(std::move(folder)) {
    if (!folder_) return;
    if (const auto made = make_folder(*folder_); !made) {
        note_fault(made.refusal().message);
        folder_.reset();
        return;
    }
    trace_ = Trace([this](const std::string& name, const cv::Mat& picture) { keep(name, picture); },
                   [this](const std::string& line) { notes_ += line + "\n"; });
}

void TraceFolder::keep(const std::string& name, const cv::Mat& picture) {
    if (picture.empty()) return;
    std::array<char, 16> number{};
    std::snprintf(number.data(), number.size(), "%02d-", ++pictures_);
    const auto written = write_png(*folder_ + "/" + number.data() + name + ".png", showable(picture));
    if (!written) note_fault(written.refusal().message);
}

void TraceFolder::note_fault(const std::string& message) {
    if (first_fault_.empty()) first_fault_ = message;
}

ExitStatus TraceFolder::finish() {
    if (folder_) {
        const auto* bytes = reinterpret_cast<const std::uint8_t*>(notes_.data());
        const auto written = write_file(*folder_ + "/notes.txt", std::span(bytes, notes_.size()));
        if (!written) note_fault(written.refusal().message);
    }
    if (first_fault_.empty()) return ExitStatus::ok;
    complain(first_fault_);
    return ExitStatus::io;
}

}  // namespace ridgetally
