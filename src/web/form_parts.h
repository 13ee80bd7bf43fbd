#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "web/http.h"

namespace ridgetally::web {

/// Collects the parts of a form while it is read. Only the parts `photo` and `request` are taken, each once;
/// the first fault ends the reading.
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
    Part* current_ = nullptr;
    std::size_t most_ = 0;  ///< bytes of the current part
    std::optional<Reply> fault_;
};

}  // namespace ridgetally::web
