#include "cli/yarn_values.h"

#include <CLI/CLI.hpp>
#include <cmath>
#include <limits>
#include <string_view>

#include "advice/gauge_text.h"
#include "core/quantity.h"
#include "core/units.h"
#include "yarns/keys.h"
#include "yarns/validate.h"

namespace ridgetally::values {
namespace {

[[noreturn]] void refuse(const std::string& text, const std::string& expected) {
    throw CLI::ValidationError("\"" + text + "\": " + expected);
}

bool has_letters(std::string_view text) {
    for (const char c : text) {
        if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) return true;
    }
    return false;
}

/// The text without a word at its end and the blanks before it; none where it does not end so.
std::optional<std::string> without_end(const std::string& text, std::string_view end) {
    if (!text.ends_with(end)) return std::nullopt;
    std::string rest = text.substr(0, text.size() - end.size());
    rest.erase(rest.find_last_not_of(' ') + 1);
    return rest;
}

/// "2", "2 1/2", "2½": what a length without a unit may be.
std::optional<double> plain_amount(const std::string& text) {
    if (has_letters(text)) return std::nullopt;
    if (parse_number(text) == 0.0) return 0.0;
    return parse_length_mm(text);
}

std::optional<Amount> amount_from(const std::string& text) {
    if (text == "none") return Amount{};
    std::string count = text;
    for (const char* word : {"balls", "ball"}) {
        if (const auto rest = without_end(text, word)) count = *rest;
    }
    if (const auto balls = plain_amount(count)) return Amount{*balls, AmountUnit::balls};
    if (const auto grams = parse_mass_g(text)) return Amount{*grams, AmountUnit::grams};
    constexpr double mm_per_m = 1000.0;
    if (const auto mm = parse_length_mm(text)) return Amount{*mm / mm_per_m, AmountUnit::metres};
    return std::nullopt;
}

/// A hook or needle with its unit: bare numbers are US, UK or metric sizes.
std::optional<double> tool_mm(const std::string& text) {
    return has_letters(text) ? parse_length_mm(text) : std::nullopt;
}

}  // namespace

Amount amount(const std::string& text) {
    const auto value = amount_from(text);
    if (!value) refuse(text, "expected balls, or a mass or length with its unit, as in 2 1/2, 40g or 120m");
    return *value;
}

Need need(const std::string& text) {
    if (const auto yarn = amount_from(text)) return *yarn;
    // The cross between two sides is no unit.
    std::string unit = text;
    std::erase(unit, 'x');
    const auto mm2 = has_letters(unit) ? parse_area_mm2(text) : std::nullopt;
    if (!mm2)
        refuse(text, "expected yarn or an area of fabric with its unit, as in 120g, 250m, 900cm2 or 30x30cm");
    constexpr double mm2_per_cm2 = 100.0;
    return FabricArea{*mm2 / mm2_per_cm2};
}

double mass_g(const std::string& text) {
    const auto grams = parse_mass_g(text);
    if (!grams) refuse(text, "expected a mass such as 50g or 1.75oz");
    return *grams;
}

double yarn_length_m(const std::string& text) {
    constexpr double mm_per_m = 1000.0;
    const auto mm = parse_length_mm(text);
    if (!mm) refuse(text, "expected a length such as 120m or 130yd");
    return has_letters(text) ? *mm / mm_per_m : *mm;
}

BandGauge band(const std::string& text) {
    const char* expected = "expected craft, gauge and tool, as in crochet:14x16@4.5mm or knit:22x28/4in";
    const auto colon = text.find(':');
    const auto at = text.find('@');
    if (colon == std::string::npos || (at != std::string::npos && at < colon)) refuse(text, expected);
    BandGauge band;
    band.craft = from_key<Craft>(text.substr(0, colon));
    const auto figures = parse_gauge(text.substr(colon + 1, at == std::string::npos ? at : at - colon - 1));
    if (!band.craft || !figures || (figures->craft && figures->craft != band.craft)) refuse(text, expected);
    band.stitches = figures->stitches.value;
    if (figures->rows) band.rows = figures->rows->value;
    band.span_mm = figures->span_mm.value_or(span_10cm_mm);
    if (at != std::string::npos) {
        band.tool_mm = tool_mm(text.substr(at + 1));
        if (!band.tool_mm) refuse(text, expected);
    }
    return band;
}

double size_share(const std::string& text) {
    constexpr double most = 0.5;  // half as large again is another piece
    const auto share = parse_percent(text);
    if (!share || !(*share > 0.0 && *share <= most))
        refuse(text, "expected a share above 0 to 50 %, as in 5%");
    return *share;
}

FabricState fabric_state(const std::string& text) {
    const auto state = from_key<FabricState>(text);
    if (!state) refuse(text, "expected off-hook, relaxed or washed");
    return *state;
}

std::string day(const std::string& text) {
    if (!is_day(text)) refuse(text, "expected a day such as 2026-11-25");
    return text;
}

std::int64_t number(const std::string& text) {
    const auto value = parse_number(text);
    if (!value || *value != std::floor(*value) || *value < 1.0 || *value > std::numeric_limits<int>::max())
        refuse(text, "expected the number of a measurement; look with: ridgetally yarn show NAME");
    return static_cast<std::int64_t>(*value);
}

Existing existing(const std::string& text) {
    if (text == "refused") return Existing::refused;
    if (text == "kept") return Existing::kept;
    if (text == "replaced") return Existing::replaced;
    refuse(text, "expected refused, kept or replaced");
}

SheetSize sheet(const std::string& text) {
    if (text == "a4") return a4_sheet;
    if (text == "letter") return letter_sheet;
    refuse(text, "expected a4 or letter");
}

}  // namespace ridgetally::values
