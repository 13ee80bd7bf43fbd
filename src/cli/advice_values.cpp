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

}  // namespace ridgetally::values
