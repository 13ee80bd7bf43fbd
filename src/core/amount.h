#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ridgetally {

/// Without the blanks around it.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// Unicode vulgar fractions (block Number Forms and Latin-1) as " n/d", primes as the inch sign, the cross as
/// x, the raised two as 2, no blanks around a fraction bar.
[[nodiscard]] std::string in_plain_characters(std::string_view text);

/// A figure in plain characters, without its unit: "6", "6.25", "6,25", "1/4", "6 1/4", "6-1/4". A comma
/// stands for the decimal point unless exactly three digits follow it.
[[nodiscard]] std::optional<double> amount(std::string_view text);

}  // namespace ridgetally
