#pragma once

#include <optional>
#include <string>

#include "advice/gauge_text.h"
#include "advice/hat_shape.h"
#include "advice/hook_advice.h"

/// Values of the options on gauge, hook, hat and yarn as people type them; see values.h.
namespace ridgetally::values {

/// A share, or a length of the piece.
struct ToleranceText {
    std::optional<double> share;
    std::optional<double> length_mm;
};

/// "13x16", "13 x 16 per 10 cm", "18 sc and 20 rows = 4 in", "18x24 knit".
[[nodiscard]] GaugeText gauge(const std::string& text);

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

}  // namespace ridgetally::values
