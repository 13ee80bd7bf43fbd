#include "report/figures.h"

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "core/units.h"

namespace ridgetally {
namespace {

constexpr int significant_digits = 6;

void require_finite(double x) {
    if (!std::isfinite(x)) throw std::logic_error("a figure of the report is not a finite number");
}

std::string without_trailing_zero(const std::string& one_decimal) {
    return one_decimal.ends_with(".0") ? one_decimal.substr(0, one_decimal.size() - 2) : one_decimal;
}

}  // namespace

double rounded(double x) {
    require_finite(x);
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), x, std::chars_format::scientific,
                                   significant_digits - 1)
                         .ptr;
    double result = 0.0;
    std::from_chars(text.data(), end, result);
    return result == 0.0 ? 0.0 : result;  // no minus zero
}

std::string half_width(const Measured& x, int decimals) {
    const double half = coverage_factor_95 * x.std;
    require_finite(half);
    if (half <= 0.0) return "0";
    const double unit = std::pow(10.0, -decimals);
    // A hair of slack, so that 0.3 written in binary stays 0.3 and does not become 0.4.
    const double units = std::ceil(half / unit - 1e-9);
    return fixed(std::fmax(units, 1.0) * unit, decimals);
}

std::string with_plus_minus(const Measured& x, int decimals) {
    return fixed(x.value, decimals) + " \u00B1 " + half_width(x, decimals);
}

std::string pattern_figure(const Measured& x) {
    const double half = std::round(2.0 * x.value) / 2.0;
    const bool inside = half > 0.0 && x.low95() <= half && half <= x.high95();
    return without_trailing_zero(fixed(inside ? half : x.value, 1));
}

Measured per_4in(const Measured& per_10cm) { return scaled(per_10cm, span_4in_mm / span_10cm_mm); }

}  // namespace ridgetally
