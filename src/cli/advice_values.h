#pragma once

#include <optional>
#include <string>

#include "advice/gauge_text.h"
#include "advice/hat_shape.h"
#include "advice/hook_advice.h"
#include "advice/yarn_needed.h"

/// Values of the options on gauge, hook, hat and yarn as people type them; see values.h.
namespace ridgetally::values {

/// A share, or a length of the piece.
struct ToleranceText {
    std::optional<double> share;
    std::optional<double> length_mm;
};

/// "13x16", "13 x 16 per 10 cm", "18 sc and 20 rows = 4 in", "18x24 knit".
[[nodiscard]] GaugeText gauge(const std::string& text);

/// The same of crochet fabric: a gauge called knit is refused, crochet does not reach it.
[[nodiscard]] GaugeText crochet_gauge(const std::string& text);

/// "10cm" or "4in": the span that counts are told over.
[[nodiscard]] double span_mm(const std::string& text);

/// "3%" or "2cm".
[[nodiscard]] ToleranceText tolerance(const std::string& text);

/// "56cm" (width) or "56x22cm" (width and height).
[[nodiscard]] PieceSize piece(const std::string& text);

/// "0" to "7".
[[nodiscard]] int yarn_category(const std::string& text);

/// A head around its widest part, 20 to 80 cm, in mm.
[[nodiscard]] double head_mm(const std::string& text);

/// "9months", "9 m", "2 years", "18mo": months.
[[nodiscard]] double age_months(const std::string& text);

/// "-5%", "-2.5cm", "0%", "0".
[[nodiscard]] Ease ease(const std::string& text);

/// A whole number from 1 to 2000.
[[nodiscard]] int count(const std::string& text);

/// "12.4g", "1.5 oz": grams, read to half the unit of the last decimal (of a fraction: to half a unit),
/// evenly likely within that.
[[nodiscard]] Measured weighed_g(const std::string& text);

/// "50g/87yd".
[[nodiscard]] Ball ball(const std::string& text);

/// "2.5" balls or "130g".
[[nodiscard]] Stock stock(const std::string& text);

/// "15x15cm", "36 sq in": mm2.
[[nodiscard]] double area_mm2(const std::string& text);

/// "10%": 0 to 100 %.
[[nodiscard]] double margin(const std::string& text);

}  // namespace ridgetally::values
