#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace ridgetally {

/// A length as people write it, in millimetres: "85", "16cm", "5.5 mm", "5,5 mm", "6 1/4 in", "6-1/4\"", "6¼
/// inches", "177 m", "87 yd". A bare number is millimetres. Fractions are whole numbers over whole numbers. A
/// comma may stand for the decimal point unless exactly three digits follow it ("1,000" could be one or a
/// thousand). None for anything else, for a zero denominator and for a length that is not finite or not above
/// zero.
[[nodiscard]] std::optional<double> parse_length_mm(std::string_view text);

/// A mass in grams: "50", "50 g", "1.75oz", "1 3/4 oz", "1 kg", "2 lb". A bare number is grams; otherwise as
/// for lengths.
[[nodiscard]] std::optional<double> parse_mass_g(std::string_view text);

/// An area in square millimetres: width by height ("15x15cm", "6 in x 6 1/4 in", where a side without a unit
/// has that of the other, mm where neither has one) or one figure ("225 cm2", "36 sq in", "0.5 m²"). None as
/// for lengths.
[[nodiscard]] std::optional<double> parse_area_mm2(std::string_view text);

/// Width and height in mm: "56x22cm", "6 in x 6 1/4 in"; a side without a unit has that of the other, mm
/// where neither has one. None as for lengths.
[[nodiscard]] std::optional<std::pair<double, double>> parse_sides_mm(std::string_view text);

/// A share of something: "5%", "5 %", "-2.5%" is 0.05, 0.05, -0.025. None without the sign, so that a share
/// is never taken for a length.
[[nodiscard]] std::optional<double> parse_percent(std::string_view text);

/// Two texts around the cross of "13x16", "13 x 16", "13 × 16"; none where there is no cross or more than
/// one.
[[nodiscard]] std::optional<std::pair<std::string, std::string>> parse_pair(std::string_view text);

/// A plain decimal number, the whole of `text` apart from blanks around it; none otherwise and for anything
/// not finite. Independent of the locale.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

}  // namespace ridgetally
