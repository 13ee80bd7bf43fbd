#include "core/decimal.h"

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace ridgetally {

std::string fixed(double x, int decimals) {
    if (!std::isfinite(x)) throw std::logic_error("a figure to be printed is not a finite number");
    std::array<char, 400> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), x, std::chars_format::fixed, decimals).ptr;
    std::string result(text.data(), end);
    if (result.starts_with('-') && result.find_first_not_of("-0.") == std::string::npos) result.erase(0, 1);
    return result;
}

}  // namespace ridgetally
