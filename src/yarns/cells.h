#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "yarns/keys.h"

/// Fields as cells of a sheet: an empty cell was not told, numbers are in their shortest exact form with a
/// point.
namespace ridgetally {

[[nodiscard]] std::string cell_of(const std::string& value);
[[nodiscard]] std::string cell_of(const std::optional<double>& value);
[[nodiscard]] std::string cell_of(const std::optional<int>& value);
template <Keyed T>
[[nodiscard]] std::string cell_of(const std::optional<T>& value) {
    return value ? std::string(key_of(*value)) : "";
}

template <Keyed T>
[[nodiscard]] std::string cell_of(const T& value) {
    return std::string(key_of(value));
}

/// False where the text is none of such a value.
[[nodiscard]] bool read_cell(const std::string& text, std::string& value);
[[nodiscard]] bool read_cell(const std::string& text, std::optional<double>& value);
[[nodiscard]] bool read_cell(const std::string& text, std::optional<int>& value);
template <Keyed T>
[[nodiscard]] bool read_cell(const std::string& text, std::optional<T>& value) {
    value = from_key<T>(text);
    return text.empty() || value.has_value();
}
/// An empty cell leaves the usual value.
template <Keyed T>
[[nodiscard]] bool read_cell(const std::string& text, T& value) {
    std::optional<T> known;
    if (!read_cell(text, known)) return false;
    if (known) value = *known;
    return true;
}

}  // namespace ridgetally
