#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ridgetally {

/// Columns that UTF-8 text takes in a terminal.
[[nodiscard]] std::size_t columns_of(std::string_view utf8);

/// Words of `text` in lines of at most `columns` characters; a longer word gets a line of its own.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t columns);

/// `text` wrapped at 80 columns, the first line behind `first`, the others behind as many blanks; newline at
/// the end of each.
[[nodiscard]] std::string paragraph(std::string_view first, std::string_view text);

}  // namespace ridgetally
