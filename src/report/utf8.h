#pragma once

#include <string>
#include <string_view>

namespace ridgetally {

/// Takes the first code point off `text`; U+FFFD, and one byte, where it is no UTF-8. `text` must not be
/// empty.
[[nodiscard]] char32_t take_code_point(std::string_view& text);

/// A code point as UTF-8.
[[nodiscard]] std::string utf8(char32_t code_point);

/// Columns that a character takes in a terminal: two for wide East Asian letters and emoji (UAX #11), none
/// for marks that combine with the one before.
[[nodiscard]] int columns_of_character(char32_t code_point);

}  // namespace ridgetally
