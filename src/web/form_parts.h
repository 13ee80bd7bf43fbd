#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "web/http.h"

namespace ridgetally::web {

/// Photos of one piece that a form may bring: more angles of one swatch than a maker has patience for (not
/// swept).
inline constexpr std::size_t most_photos = 12;

/// Name in `Request::parts` of the photo of this index, from 0. A form names them all "photo" (RFC
/// 7578, 4.3).
[[nodiscard]] std::string photo_part_name(std::size_t index);

/// Collects the parts of a form while it is read. Only the parts `photo`, up to most_photos of them, and
/// `request`, once, are taken; the first fault ends the reading.
class FormParts {
  public:
    /// `body_bytes`: announced length of the whole form.
    explicit FormParts(std::size_t body_bytes) : body_bytes_(body_bytes) {}

    /// A part begins; false where reading must stop.
    [[nodiscard]] bool begin(const std::string& name, std::string_view file_name);
    /// More of the part's content; false where reading must stop.
    [[nodiscard]] bool add(std::string_view bytes);

    /// Why reading stopped: 400 "bad-form", 413 "too-large".
    [[nodiscard]] const std::optional<Reply>& fault() const { return fault_; }
    [[nodiscard]] std::map<std::string, Part> take() { return std::move(parts_); }

  private:
    std::size_t body_bytes_;
    std::map<std::string, Part> parts_;
    std::size_t photos_ = 0;
    std::size_t photo_bytes_ = 0;  ///< of all photos so far
    Part* current_ = nullptr;
    bool is_photo_ = false;  ///< the current part
    std::optional<Reply> fault_;
};

}  // namespace ridgetally::web
