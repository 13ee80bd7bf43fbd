#pragma once

#include <optional>
#include <string_view>

namespace ridgetally {

/// A length as people write it, in millimetres: "85", "16cm", "5.5 mm", "5,5 mm", "6 1/4 in", "6-1/4\"", "6¼
/// inches". A bare number is millimetres. Fractions are whole numbers over whole numbers. A comma may stand
/// for the decimal point unless exactly three digits follow it ("1,000" could be one or a thousand). None for
/// anything else, for a zero denominator and for a length that is not finite or not above zero.
[[nodiscard]] std::optional<double> parse_length_mm(std::string_view text);

/// A plain decimal number, the whole of `text` apart from blanks around it; none otherwise and for anything
/// not finite. Independent of the locale.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

}  // namespace ridgetally
