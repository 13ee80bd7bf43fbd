#include "cli/advice_values.h"

#include <CLI/CLI.hpp>
#include <cmath>

#include "core/quantity.h"

namespace ridgetally::values {
namespace {

[[noreturn]] void refuse(const std::string& text, const std::string& expected) {
    throw CLI::ValidationError("\"" + text + "\": " + expected);
}

}  // namespace

GaugeText gauge(const std::string& text) {
    const auto gauge = parse_gauge(text);
    if (!gauge) {
        refuse(text,
               "expected stitches by rows, as in 13x16, 13x16/4in, or \"18 sc and 20 rows = 10 cm\"; with a "
               "plus-or-minus: 12.5+-0.3 x 15+-0.4");
    }
    return *gauge;
}

GaugeText crochet_gauge(const std::string& text) {
    GaugeText told = gauge(text);
    if (told.craft == Craft::knit)
        refuse(text, "that is a gauge of knitting; tell one of crochet fabric, counted on a swatch");
    return told;
}

double span_mm(const std::string& text) {
    const auto mm = parse_length_mm(text);
    for (const double span : {span_10cm_mm, span_4in_mm})
        if (mm && std::abs(*mm - span) < 1e-9) return span;
    refuse(text, "expected 10cm or 4in (they differ by 1.6 %)");
}

ToleranceText tolerance(const std::string& text) {
    ToleranceText tolerance;
    if (const auto share = parse_percent(text)) {
        if (!(*share > 0.0 && *share <= 0.5)) refuse(text, "expected a share above 0 and up to 50 %");
        tolerance.share = share;
        return tolerance;
    }
    tolerance.length_mm = parse_length_mm(text);
    if (!tolerance.length_mm || parse_number(text))
        refuse(text, "expected a share or a length of the piece, as in 3% or 2cm");
    return tolerance;
}

PieceSize piece(const std::string& text) {
    if (const auto sides = parse_sides_mm(text)) return {sides->first, sides->second};
    const auto width = parse_length_mm(text);
    if (!width) refuse(text, "expected the width, or width x height, as in 56cm or 56x22cm");
    return {width, std::nullopt};
}

int yarn_category(const std::string& text) {
    const auto value = parse_number(text);
    if (!value || *value != std::floor(*value) || *value < 0.0 || *value > 7.0)
        refuse(text, "expected a yarn category from 0 (lace) to 7 (jumbo)");
    return static_cast<int>(*value);
}

double head_mm(const std::string& text) {
    // "48,52cm" may be one head or two; heads are not told to a tenth of a millimetre.
    const auto comma = text.find(',');
    if (comma != std::string::npos && text.find_first_not_of("0123456789", comma + 1) != comma + 2)
        refuse(text, "expected one head; say --head again for another");
    const auto mm = parse_length_mm(text);
    if (!mm || *mm < 200.0 || *mm > 800.0)
        refuse(text, "expected a head of 20 to 80 cm, as in 56cm or \"22 in\"");
    return *mm;
}

double age_months(const std::string& text) {
    const auto letters = text.find_first_not_of("0123456789., ");
    const auto number = parse_number(text.substr(0, letters));
    const std::string unit = letters == std::string::npos ? "" : text.substr(letters);
    for (const char* word : {"m", "mo", "month", "months"})
        if (number && unit == word) return *number;
    for (const char* word : {"y", "yr", "year", "years"})
        if (number && unit == word) return 12.0 * *number;
    refuse(text, "expected an age with its unit, as in 9months or 2years");
}

Ease ease(const std::string& text) {
    Ease ease;
    ease.share = parse_percent(text);
    if (text == "0") ease.share = 0.0;
    if (!ease.share) {
        const bool smaller = text.starts_with('-');
        const auto length = parse_length_mm(smaller ? text.substr(1) : text);
        if (!length || parse_number(text)) refuse(text, "expected a share or a length, as in -5% or -2.5cm");
        ease.length_mm = smaller ? -*length : *length;
    }
    // Published rules go from 14 % smaller to as large as the head; beyond a third it is no hat.
    if (ease.share && std::abs(*ease.share) > 0.34) refuse(text, "expected at most a third of the head");
    if (ease.length_mm && std::abs(*ease.length_mm) > 150.0) refuse(text, "expected at most 15 cm");
    return ease;
}

int count(const std::string& text) {
    const auto value = parse_number(text);
    if (!value || *value != std::floor(*value) || *value < 1.0 || *value > 2000.0)
        refuse(text, "expected a whole number from 1 to 2000");
    return static_cast<int>(*value);
}

Measured weighed_g(const std::string& text) {
    const auto mass_g = parse_mass_g(text);
    if (!mass_g) refuse(text, "expected a mass, as in 12.4g or 1/2 oz");
    const auto end = text.find_first_not_of("0123456789.,/ ");
    const std::string figure = text.substr(0, text.find_last_of("0123456789") + 1);
    const std::string unit = end == std::string::npos ? "" : text.substr(end);
    const auto point = figure.find_first_of(".,");
    const double last_place =
        point == std::string::npos ? 1.0 : std::pow(10.0, -static_cast<double>(figure.size() - point - 1));
    const double unit_g = parse_mass_g("1" + unit).value_or(1.0);
    return measured(*mass_g,
                    {{"reading of the scales", 0.5 * last_place * unit_g / std::sqrt(3.0) / *mass_g}});
}

Ball ball(const std::string& text) {
    const auto ball = parse_ball(text);
    if (!ball) refuse(text, "expected mass and length of a ball, as in 50g/87yd or 100g/177m");
    return *ball;
}

Stock stock(const std::string& text) {
    if (const auto balls = parse_number(text)) {
        if (*balls < 0.0) refuse(text, "expected what you have: balls, as in 2.5, or a mass, as in 130g");
        return {balls, std::nullopt};
    }
    const auto mass_g = parse_mass_g(text);
    if (!mass_g) refuse(text, "expected what you have: balls, as in 2.5, or a mass, as in 130g");
    return {std::nullopt, mass_g};
}

double area_mm2(const std::string& text) {
    const auto area = parse_area_mm2(text);
    if (!area) refuse(text, "expected an area, as in 15x15cm or \"36 sq in\"");
    return *area;
}

double margin(const std::string& text) {
    const auto share = parse_percent(text);
    if (!share || *share < 0.0 || *share > 1.0) refuse(text, "expected a share from 0% to 100%, as in 10%");
    return *share;
}

}  // namespace ridgetally::values
