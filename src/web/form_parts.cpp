#include "web/form_parts.h"

namespace ridgetally::web {
namespace {

constexpr std::size_t most_request_bytes = std::size_t{64} * 1024;

}  // namespace

bool FormParts::begin(const std::string& name, std::string_view file_name) {
    const bool photo = name == "photo";
    if (!photo && name != "request") {
        fault_ = error_reply(400, "bad-form", "the form has parts besides photo and request");
        return false;
    }
    const auto [at, is_new] = parts_.emplace(name, Part{std::string(file_name), ""});
    if (!is_new) {
        fault_ = error_reply(400, "bad-form", "the form has the same part twice");
        return false;
    }
    current_ = &at->second;
    most_ = photo ? body_bytes_ : most_request_bytes;
    // Growing by doubling would take twice what was reserved.
    if (photo) current_->content.reserve(body_bytes_);
    return true;
}

bool FormParts::add(std::string_view bytes) {
    if (current_ == nullptr) return false;
    if (current_->content.size() + bytes.size() > most_) {
        fault_ = error_reply(413, "too-large", "the form's request part is too large");
        return false;
    }
    current_->content += bytes;
    return true;
}

}  // namespace ridgetally::web
