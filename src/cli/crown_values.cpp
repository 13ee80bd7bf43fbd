#include "cli/crown_values.h"

#include <CLI/CLI.hpp>
#include <charconv>

#include "core/quantity.h"

namespace ridgetally::values {
namespace {

/// What follows the number: "in" of "6.5in".
std::string unit_of(const std::string& text) {
    const auto at = text.find_last_of("0123456789.,/ ");
    return at == std::string::npos ? text : text.substr(at + 1);
}

bool has_unit(const std::string& text) { return !unit_of(text).empty(); }

}  // namespace

LengthRange length_range(const std::string& text) {
    const auto dots = text.find("..");
    if (dots == std::string::npos) {
        const auto mm = parse_length_mm(text);
        if (!mm)
            throw CLI::ValidationError(text + ": a length such as 16cm or a range such as 6..6.5in expected");
        return {*mm * (1.0 - single_length_tolerance), *mm * (1.0 + single_length_tolerance)};
    }
    std::string first = text.substr(0, dots);
    const std::string second = text.substr(dots + 2);
    if (!has_unit(first)) first += unit_of(second);
    const auto low = parse_length_mm(first);
    const auto high = parse_length_mm(second);
    if (!low || !high || *low > *high)
        throw CLI::ValidationError(
            text + ": a range from the smaller to the larger length expected, as in 6..6.5in");
    return {*low, *high};
}

std::vector<double> lengths_mm(const std::string& text) {
    std::vector<double> lengths;
    std::size_t from = 0;
    while (from <= text.size()) {
        const auto comma = std::min(text.find(',', from), text.size());
        const auto mm = parse_length_mm(text.substr(from, comma - from));
        if (!mm)
            throw CLI::ValidationError(text + ": lengths parted by commas expected, as in 4cm,6.4cm,8.8cm");
        lengths.push_back(*mm);
        from = comma + 1;
    }
    return lengths;
}

int stitch_count(const std::string& text) {
    int count = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), count);
    constexpr int most = 2000;
    if (fault != std::errc() || end != text.data() + text.size() || count < 1 || count > most)
        throw CLI::ValidationError(text + ": a whole number of stitches expected, 1 to 2000");
    return count;
}

}  // namespace ridgetally::values
