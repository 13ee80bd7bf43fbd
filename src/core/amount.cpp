#include "core/amount.h"

#include <array>
#include <charconv>
#include <utility>

#include "core/quantity.h"

namespace ridgetally {
namespace {

constexpr std::string_view blanks = " \t\r\n";

}  // namespace

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string in_plain_characters(std::string_view text) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 14> replacements = {{
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
        {"\u00D7", "x"},
        {"\u00B2", "2"},
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

namespace {

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

}  // namespace

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

}  // namespace ridgetally
