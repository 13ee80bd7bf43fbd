#include "yarns/cells.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>

#include "core/quantity.h"

namespace ridgetally {

std::string cell_of(const std::string& value) { return value; }

std::string cell_of(const std::optional<double>& value) {
    if (!value) return {};
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), *value).ptr;
    return {text.data(), end};
}

std::string cell_of(const std::optional<int>& value) { return value ? std::to_string(*value) : ""; }

bool read_cell(const std::string& text, std::string& value) {
    value = text;
    return true;
}

bool read_cell(const std::string& text, std::optional<double>& value) {
    value = parse_number(text);
    return text.empty() || value.has_value();
}

bool read_cell(const std::string& text, std::optional<int>& value) {
    const auto number = parse_number(text);
    value.reset();
    if (text.empty()) return true;
    if (!number || *number != std::floor(*number) || std::abs(*number) > std::numeric_limits<int>::max())
        return false;
    value = static_cast<int>(*number);
    return true;
}

}  // namespace ridgetally
