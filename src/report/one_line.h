#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace ridgetally {

/// Text of a maker's as it can stand in one line of a terminal or a drawing: line ends, tabs and other
/// control characters become their Unicode pictures (U+2400 and on), characters that turn the writing
/// direction, break lines or are no UTF-8 become U+FFFD.
[[nodiscard]] std::string one_line(std::string_view text);

/// The text, cut to at most `columns` of a terminal with "…" in place of what does not fit.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t columns);

}  // namespace ridgetally
