#pragma once

#include <optional>
#include <string_view>

#include "advice/maker_gauge.h"

namespace ridgetally {

/// A gauge as people write it.
struct GaugeText {
    Measured stitches;  ///< over the span
    std::optional<Measured> rows;
    std::optional<double> span_mm;
    std::optional<Craft> craft;
};

/// "13x16", "12.5", "13 x 16 per 10 cm", "14x16/4in", "18 sc and 20 rows = 10 cm", "12.5±0.3 x 15±0.4",
/// "18x24 knit". What stands behind ± is the half width of a 95 % interval. Without it a figure is taken to
/// be read to the nearest half stitch (patterns are written in whole and half stitches, common practice), or
/// to its last decimal where it has a finer one, evenly likely within that (JCGM 100:2008, clause 4.3.7).
/// None for anything else and for counts not between 0.5 and 200 or spans not between 10 mm and 1 m.
[[nodiscard]] std::optional<GaugeText> parse_gauge(std::string_view text);

/// As a target: the figures as they stand. The span is that of the text, else `span_mm`.
[[nodiscard]] PatternGauge pattern_gauge(const GaugeText& text, double span_mm);

/// As something made. The span is that of the text, else `span_mm`.
[[nodiscard]] MadeGauge made_gauge(const GaugeText& text, double span_mm);

}  // namespace ridgetally
