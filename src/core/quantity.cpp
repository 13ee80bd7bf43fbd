#include "core/quantity.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <utility>

#include "core/units.h"

namespace ridgetally {
namespace {

constexpr std::string_view blanks = " \t\r\n";

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// Unicode vulgar fractions (block Number Forms and Latin-1) as " n/d", primes as the inch sign, no blanks
/// around a fraction bar.
std::string in_plain_characters(std::string_view text) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 12> replacements = {{
        {"\u00BC", " 1/4"},
        {"\u00BD", " 1/2"},
        {"\u00BE", " 3/4"},
        {"\u2153", " 1/3"},
        {"\u2154", " 2/3"},
        {"\u215B", " 1/8"},
        {"\u215C", " 3/8"},
        {"\u215D", " 5/8"},
        {"\u215E", " 7/8"},
        {"\u2033", "\""},
        {"\u201D", "\""},
        {"\u00A0", " "},
    }};
    std::string plain(text);
    for (const auto& [from, to] : replacements) {
        for (auto at = plain.find(from); at != std::string::npos; at = plain.find(from, at + to.size())) {
            plain.replace(at, from.size(), to);
        }
    }
    for (auto bar = plain.find('/'); bar != std::string::npos; bar = plain.find('/', bar + 1)) {
        while (bar + 1 < plain.size() && plain[bar + 1] == ' ') plain.erase(bar + 1, 1);
        while (bar > 0 && plain[bar - 1] == ' ') plain.erase(--bar, 1);
    }
    return plain;
}

/// Millimetres in one of the unit; none for a word that is no unit of length.
std::optional<double> mm_in(std::string_view unit) {
    std::string word(unit);
    std::transform(word.begin(), word.end(), word.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (word.empty() || word == "mm") return 1.0;
    if (word == "cm") return 10.0;
    if (word == "m") return 1000.0;
    if (word == "in" || word == "in." || word == "inch" || word == "inches" || word == "\"")
        return mm_per_inch;
    return std::nullopt;
}

std::optional<unsigned> whole_number(std::string_view text) {
    unsigned value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return value;
}

std::optional<double> fraction(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) return std::nullopt;
    const auto numerator = whole_number(trimmed(text.substr(0, slash)));
    const auto denominator = whole_number(trimmed(text.substr(slash + 1)));
    if (!numerator || !denominator || *denominator == 0) return std::nullopt;
    return static_cast<double>(*numerator) / static_cast<double>(*denominator);
}

/// "6", "6.25", "6,25", "1/4", "6 1/4", "6-1/4"; no blanks around the fraction bar.
std::optional<double> amount(std::string_view text) {
    if (text.find('/') != std::string_view::npos) {
        const auto gap = text.find_first_of(" \t-");
        const auto slash = text.find('/');
        if (gap == std::string_view::npos || gap > slash) return fraction(text);
        const auto whole = whole_number(text.substr(0, gap));
        const auto part = fraction(trimmed(text.substr(gap + 1)));
        if (!whole || !part) return std::nullopt;
        return *whole + *part;
    }
    std::string digits(text);
    if (const auto comma = digits.find(','); comma != std::string::npos) {
        if (digits.size() - comma - 1 == 3) return std::nullopt;
        digits[comma] = '.';
    }
    return parse_number(digits);
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

std::optional<double> parse_length_mm(std::string_view text) {
    const std::string plain = in_plain_characters(text);
    const std::string_view whole = trimmed(plain);
    const auto last_digit = whole.find_last_of("0123456789");
    if (last_digit == std::string_view::npos) return std::nullopt;
    const auto unit = mm_in(trimmed(whole.substr(last_digit + 1)));
    const auto value = amount(whole.substr(0, last_digit + 1));
    if (!unit || !value) return std::nullopt;
    const double mm = *value * *unit;
    if (!std::isfinite(mm) || !(mm > 0.0)) return std::nullopt;
    return mm;
}

}  // namespace ridgetally
