#include "web/form_parts.h"

namespace ridgetally::web {
namespace {

constexpr std::size_t most_request_bytes = std::size_t{64} * 1024;

}  // namespace

std::string photo_part_name(std::size_t index) {
    return index == 0 ? "photo" : "photo " + std::to_string(index + 1);
}

bool FormParts::begin(const std::string& name, std::string_view file_name) {
    const bool photo = name == "photo";
    if (!photo && name != "request") {
        fault_ = error_reply(400, "bad-form", "the form has parts besides photo and request");
        return false;
    }
    if (photo && photos_ == most_photos) {
        fault_ = error_reply(413, "too-large",
                             "the form has more than " + std::to_string(most_photos) + " photos");
        return false;
    }
    const auto [at, is_new] =
        parts_.emplace(photo ? photo_part_name(photos_++) : name, Part{std::string(file_name), ""});
    if (!is_new) {
        fault_ = error_reply(400, "bad-form", "the form has the same part twice");
        return false;
    }
    current_ = &at->second;
    is_photo_ = photo;
    // Growing by doubling would take twice what was reserved. What a later photo does not fill of this is
    // address space alone.
    if (photo) current_->content.reserve(body_bytes_ - photo_bytes_);
    return true;
}

bool FormParts::add(std::string_view bytes) {
    if (current_ == nullptr) return false;
    const std::size_t most =
        is_photo_ ? body_bytes_ - photo_bytes_ : most_request_bytes - current_->content.size();
    if (bytes.size() > most) {
        fault_ = error_reply(
            413, "too-large",
            is_photo_ ? "the photos are larger than was announced" : "the form's request part is too large");
        return false;
    }
    current_->content += bytes;
    if (is_photo_) photo_bytes_ += bytes.size();
    return true;
}

}  // namespace ridgetally::web
