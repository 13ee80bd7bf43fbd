#pragma once

#include <optional>
#include <string>

#include "core/measured.h"
#include "core/units.h"

namespace ridgetally {

/// Knitting or crochet, where a gauge says so.
enum class Craft { crochet, knit };

/// A gauge as a pattern states it: so many stitches and rows over one span, without uncertainty.
struct PatternGauge {
    double stitches = 0.0;
    std::optional<double> rows;
    double span_mm = span_10cm_mm;
    std::optional<Craft> craft;

    [[nodiscard]] double stitches_per_100mm() const { return stitches * span_10cm_mm / span_mm; }
    [[nodiscard]] double stitch_width_mm() const { return span_mm / stitches; }
    [[nodiscard]] std::optional<double> rows_per_100mm() const {
        return rows ? std::optional(*rows * span_10cm_mm / span_mm) : std::nullopt;
    }
};

/// A gauge as somebody made it, with what is not known about it.
struct MadeGauge {
    Measured stitches_per_100mm;
    std::optional<Measured> rows_per_100mm;
    std::string source;  ///< "measured in the photo", "counted by the maker"

    [[nodiscard]] Measured stitch_width_mm() const { return reciprocal(span_10cm_mm, stitches_per_100mm); }
    [[nodiscard]] std::optional<Measured> row_height_mm() const {
        return rows_per_100mm ? std::optional(reciprocal(span_10cm_mm, *rows_per_100mm)) : std::nullopt;
    }
};

}  // namespace ridgetally
