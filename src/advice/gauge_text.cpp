#include "advice/gauge_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "core/amount.h"
#include "core/lower_case.h"
#include "core/quantity.h"

namespace ridgetally {
namespace {

/// Outside of these a figure is a typing mistake: no hook makes such stitches.
constexpr double least_count = 0.5;
constexpr double most_count = 200.0;
constexpr double least_span_mm = 10.0;
constexpr double most_span_mm = 1000.0;

/// Takes the first `word` out of the text; whether it was there.
bool taken_out(std::string& text, std::string_view word) {
    const auto at = text.find(word);
    if (at == std::string::npos) return false;
    text.replace(at, word.size(), " ");
    return true;
}

/// What stands behind "per", "over", "=" or the bar that ends the counts ("16/4in"; the bar of "12 1/2"
/// stands between digits alone and has no unit behind it).
std::optional<std::string> cut_off_span(std::string& text) {
    for (const std::string_view mark : {" per ", " over ", "=", "per ", "over "}) {
        const auto at = text.find(mark);
        if (at == std::string::npos) continue;
        std::string span = text.substr(at + mark.size());
        text.resize(at);
        return span;
    }
    const auto bar = text.rfind('/');
    if (bar == std::string::npos || text.find_first_of("cmin\"", bar) == std::string::npos)
        return std::nullopt;
    std::string span = text.substr(bar + 1);
    text.resize(bar);
    return span;
}

bool is_counting_word(std::string_view word) {
    static constexpr std::array words = {"sts",    "st",    "stitches", "stitch", "sc",   "hdc",
                                         "dc",     "tr",    "htr",      "dtr",    "rows", "row",
                                         "rounds", "round", "rnds",     "r",      "s"};
    return word.empty() || std::find(words.begin(), words.end(), word) != words.end();
}

/// The half range in which a figure lies that was read as `text` says.
double reading_half_range(std::string_view figure, double value) {
    if (std::abs(2.0 * value - std::round(2.0 * value)) < 1e-9) return 0.25;
    const auto point = figure.find_first_of(".,");
    if (point == std::string_view::npos) return 0.25;
    return 0.5 * std::pow(10.0, -static_cast<double>(figure.size() - point - 1));
}

/// "12.5", "12.5±0.3", "13 sts".
std::optional<Measured> count_from(std::string_view told) {
    std::string text(trimmed(told));
    const auto letters = text.find_first_of("abcdefghijklmnopqrstuvwxyz");
    if (letters != std::string::npos) {
        if (!is_counting_word(trimmed(std::string_view(text).substr(letters)))) return std::nullopt;
        text.resize(letters);
    }
    std::optional<double> half;
    for (const std::string_view mark : {"\u00B1", "+-", "+/-"}) {
        const auto at = text.find(mark);
        if (at == std::string::npos) continue;
        half = amount(trimmed(std::string_view(text).substr(at + mark.size())));
        if (!half || *half < 0.0) return std::nullopt;
        text.resize(at);
        break;
    }
    const std::string_view figure = trimmed(text);
    const auto value = amount(figure);
    if (!value || *value < least_count || *value > most_count) return std::nullopt;
    const double std =
        half ? *half / coverage_factor_95 : reading_half_range(figure, *value) / std::sqrt(3.0);
    return measured(*value, {{half ? "as told" : "reading of the count", std / *value}});
}

}  // namespace

std::optional<GaugeText> parse_gauge(std::string_view told) {
    GaugeText gauge;
    std::string text = lower_case(in_plain_characters(told));
    if (taken_out(text, "crochet")) gauge.craft = Craft::crochet;
    if (taken_out(text, "knit")) {
        if (gauge.craft) return std::nullopt;
        gauge.craft = Craft::knit;
    }
    (void)taken_out(text, "gauge:");
    (void)taken_out(text, "tension:");
    if (const auto span = cut_off_span(text)) {
        gauge.span_mm = parse_length_mm(*span);
        if (!gauge.span_mm || *gauge.span_mm < least_span_mm || *gauge.span_mm > most_span_mm)
            return std::nullopt;
    }
    if (const auto both = text.find(" and "); both != std::string::npos) text.replace(both, 5, "x");
    const auto cross = text.find('x');
    const auto stitches = count_from(std::string_view(text).substr(0, cross));
    if (!stitches) return std::nullopt;
    gauge.stitches = *stitches;
    if (cross != std::string::npos) {
        gauge.rows = count_from(std::string_view(text).substr(cross + 1));
        if (!gauge.rows) return std::nullopt;
    }
    return gauge;
}

PatternGauge pattern_gauge(const GaugeText& text, double span_mm) {
    PatternGauge gauge{text.stitches.value, std::nullopt, text.span_mm.value_or(span_mm), text.craft};
    if (text.rows) gauge.rows = text.rows->value;
    return gauge;
}

MadeGauge made_gauge(const GaugeText& text, double span_mm) {
    const double to_100mm = span_10cm_mm / text.span_mm.value_or(span_mm);
    MadeGauge gauge{scaled(text.stitches, to_100mm), std::nullopt, "counted by the maker"};
    if (text.rows) gauge.rows_per_100mm = scaled(*text.rows, to_100mm);
    return gauge;
}

}  // namespace ridgetally
