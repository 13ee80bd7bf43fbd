#include "core/quantity.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "core/amount.h"
#include "core/lower_case.h"
#include "core/trade_units.h"

namespace ridgetally {
namespace {

/// One of the unit; none for a word that is no unit of the table.
struct Unit {
    std::string_view word;
    double size;
};

template <std::size_t N>
std::optional<double> size_of(const std::array<Unit, N>& table, std::string_view unit) {
    std::string word = lower_case(std::string(unit));
    if (word.size() > 1 && word.back() == '.') word.pop_back();
    for (const auto& [known, size] : table)
        if (word == known) return size;
    return std::nullopt;
}

/// In millimetres.
std::optional<double> mm_in(std::string_view unit) {
    static constexpr std::array<Unit, 21> table = {{
        {"", 1.0},
        {"mm", 1.0},
        {"cm", 10.0},
        {"centimetre", 10.0},
        {"centimetres", 10.0},
        {"centimeter", 10.0},
        {"centimeters", 10.0},
        {"m", mm_per_m},
        {"metre", mm_per_m},
        {"metres", mm_per_m},
        {"meter", mm_per_m},
        {"meters", mm_per_m},
        {"in", mm_per_inch},
        {"inch", mm_per_inch},
        {"inches", mm_per_inch},
        {"\"", mm_per_inch},
        {"ft", mm_per_foot},
        {"feet", mm_per_foot},
        {"yd", mm_per_yard},
        {"yds", mm_per_yard},
        {"yards", mm_per_yard},
    }};
    return size_of(table, unit);
}

/// In grams.
std::optional<double> g_in(std::string_view unit) {
    static constexpr std::array<Unit, 10> table = {{
        {"", 1.0},
        {"g", 1.0},
        {"gram", 1.0},
        {"grams", 1.0},
        {"kg", 1000.0},
        {"oz", g_per_ounce},
        {"ounce", g_per_ounce},
        {"ounces", g_per_ounce},
        {"lb", g_per_pound},
        {"lbs", g_per_pound},
    }};
    return size_of(table, unit);
}

/// In square millimetres.
std::optional<double> mm2_in(std::string_view unit) {
    static constexpr std::array<Unit, 9> table = {{
        {"mm2", 1.0},
        {"sq mm", 1.0},
        {"cm2", mm2_per_cm2},
        {"sq cm", mm2_per_cm2},
        {"m2", mm_per_m * mm_per_m},
        {"sq m", mm_per_m * mm_per_m},
        {"in2", mm2_per_square_inch},
        {"sq in", mm2_per_square_inch},
        {"sq inches", mm2_per_square_inch},
    }};
    return size_of(table, unit);
}

using UnitSize = std::optional<double> (*)(std::string_view);

/// None unless finite and above zero: products of figures that are both may be neither.
std::optional<double> above_zero(double product) {
    if (!std::isfinite(product) || !(product > 0.0)) return std::nullopt;
    return product;
}

/// "16 cm" as 16 of `unit` times its size; none unless finite and above zero. The unit begins at the first
/// letter or sign behind the figure.
std::optional<double> parse_with_unit(std::string_view text, UnitSize size_of_unit) {
    const std::string plain = in_plain_characters(text);
    const std::string_view whole = trimmed(plain);
    auto end = whole.find_first_not_of("0123456789.,/+- \t");
    // "1e2 mm": an exponent belongs to the figure.
    if (end != std::string_view::npos && end > 0 && (whole[end] == 'e' || whole[end] == 'E') &&
        end + 1 < whole.size() && whole.find_first_of("0123456789+-", end + 1) == end + 1) {
        end = whole.find_first_not_of("0123456789+- \t", end + 1);
    }
    const std::string_view figure = trimmed(whole.substr(0, end));
    const std::string_view unit =
        end == std::string_view::npos ? std::string_view() : trimmed(whole.substr(end));
    const auto size = size_of_unit(unit);
    const auto value = amount(figure);
    if (!size || !value) return std::nullopt;
    return above_zero(*value * *size);
}

/// Whether a unit stands behind the figure.
bool has_unit(std::string_view text) {
    const auto last = trimmed(text);
    return !last.empty() && last.find_last_of("0123456789./") != last.size() - 1;
}

}  // namespace

std::optional<double> parse_number(std::string_view text) {
    auto digits = trimmed(text);
    if (digits.size() > 1 && digits.front() == '+' && digits[1] != '-') digits.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (digits.empty() || error != std::errc() || end != digits.data() + digits.size() ||
        !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

std::optional<double> parse_length_mm(std::string_view text) { return parse_with_unit(text, mm_in); }

std::optional<double> parse_mass_g(std::string_view text) { return parse_with_unit(text, g_in); }

std::optional<std::pair<std::string, std::string>> parse_pair(std::string_view text) {
    const std::string plain = in_plain_characters(text);
    const auto cross = plain.find_first_of("xX");
    if (cross == std::string::npos || plain.find_first_of("xX", cross + 1) != std::string::npos)
        return std::nullopt;
    const auto first = trimmed(std::string_view(plain).substr(0, cross));
    const auto second = trimmed(std::string_view(plain).substr(cross + 1));
    if (first.empty() || second.empty()) return std::nullopt;
    return std::pair{std::string(first), std::string(second)};
}

std::optional<std::pair<double, double>> parse_sides_mm(std::string_view text) {
    auto sides = parse_pair(text);
    if (!sides) return std::nullopt;
    auto& [width, height] = *sides;
    const auto unit_of = [](const std::string& side) {
        return side.substr(side.find_last_of("0123456789./") + 1);
    };
    if (!has_unit(width)) width += unit_of(height);
    if (!has_unit(height)) height += unit_of(width);
    const auto width_mm = parse_length_mm(width);
    const auto height_mm = parse_length_mm(height);
    if (!width_mm || !height_mm) return std::nullopt;
    return std::pair{*width_mm, *height_mm};
}

std::optional<double> parse_area_mm2(std::string_view text) {
    if (const auto sides = parse_sides_mm(text)) return above_zero(sides->first * sides->second);
    return parse_with_unit(text, mm2_in);
}

std::optional<double> parse_percent(std::string_view text) {
    const auto whole = trimmed(text);
    if (whole.empty() || whole.back() != '%') return std::nullopt;
    std::string figure(trimmed(whole.substr(0, whole.size() - 1)));
    if (const auto comma = figure.find(','); comma != std::string::npos) figure[comma] = '.';
    const auto value = parse_number(figure);
    if (!value) return std::nullopt;
    return *value / 100.0;
}

}  // namespace ridgetally
