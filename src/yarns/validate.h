#pragma once

#include <string>
#include <string_view>

#include "core/outcome.h"
#include "yarns/measurement.h"
#include "yarns/yarn.h"

namespace ridgetally {

/// Limits of what the record takes; larger is a mistake, not a yarn. In bytes of UTF-8.
inline constexpr std::size_t longest_name = 1000;
inline constexpr std::size_t longest_text = 100000;

/// Whether every sequence of bytes is well-formed UTF-8 (The Unicode Standard, table 3-7) without NUL.
[[nodiscard]] bool is_text(std::string_view bytes);

/// Whether this is a day of the calendar in the form 2026-11-25 (ISO 8601).
[[nodiscard]] bool is_day(std::string_view text);

/// Blanks and line ends around the name go.
[[nodiscard]] std::string trimmed_name(std::string_view name);

/// The value where it may stand in the record. Refusal: bad-value, with the field and what was expected.
[[nodiscard]] Outcome<Yarn> checked(Yarn yarn);
[[nodiscard]] Outcome<Measurement> checked(Measurement measurement);

}  // namespace ridgetally
