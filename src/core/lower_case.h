#pragma once

#include <algorithm>
#include <string>

namespace ridgetally {

/// Words in small letters, A to Z only: what users type, file endings and the names of protocols do not
/// depend on where the computer stands.
[[nodiscard]] inline std::string lower_case(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return text;
}

}  // namespace ridgetally
