#include "report/one_line.h"

#include <algorithm>

#include "report/utf8.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

/// Line and paragraph separators, marks that embed, override or isolate a writing direction (UAX #9), and the
/// C1 controls.
bool disturbs(char32_t c) {
    return (c >= 0x80 && c <= 0x9F) || (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

}  // namespace

std::string one_line(std::string_view text) {
    const auto printable = [](char c) { return c >= 0x20 && c < 0x7F; };
    if (std::all_of(text.begin(), text.end(), printable)) return std::string(text);
    std::string line;
    while (!text.empty()) {
        const char32_t c = take_code_point(text);
        constexpr char32_t pictures = 0x2400;
        constexpr char32_t picture_of_delete = 0x2421;
        line += utf8(c < 0x20 ? pictures + c : c == 0x7F ? picture_of_delete : disturbs(c) ? 0xFFFD : c);
    }
    return line;
}

std::string shortened(std::string_view text, std::size_t columns) {
    if (columns_of(text) <= columns) return std::string(text);
    std::string kept;
    std::size_t used = 0;
    while (!text.empty()) {
        const char32_t c = take_code_point(text);
        used += static_cast<std::size_t>(columns_of_character(c));
        if (used + 1 > columns) break;
        kept += utf8(c);
    }
    return kept + "\u2026";
}

}  // namespace ridgetally
