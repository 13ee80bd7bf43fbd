#include "report/wrap.h"

#include <algorithm>
#include <sstream>

#include "report/utf8.h"

namespace ridgetally {
namespace {

constexpr std::size_t terminal_columns = 80;  // the narrowest terminal in use, from the VT100 on

}  // namespace

std::size_t columns_of(std::string_view utf8) {
    // Most text is ASCII, a column a byte; a table of stock asks this tens of thousands of times.
    const auto ascii = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
    if (std::all_of(utf8.begin(), utf8.end(), ascii)) return utf8.size();
    std::size_t columns = 0;
    while (!utf8.empty()) columns += static_cast<std::size_t>(columns_of_character(take_code_point(utf8)));
    return columns;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t columns) {
    std::istringstream words{std::string(text)};
    std::vector<std::string> lines;
    for (std::string word; words >> word;) {
        const bool fits = !lines.empty() && columns_of(lines.back()) + 1 + columns_of(word) <= columns;
        if (fits) {
            lines.back() += " " + word;
        } else {
            lines.push_back(word);
        }
    }
    return lines;
}

std::string paragraph(std::string_view first, std::string_view text) {
    const std::size_t indent = columns_of(first);
    std::string result;
    std::string margin(first);
    for (const auto& line : wrapped(text, terminal_columns - std::min(indent, terminal_columns - 20))) {
        result += margin + line + "\n";
        margin.assign(indent, ' ');
    }
    return result;
}

}  // namespace ridgetally
