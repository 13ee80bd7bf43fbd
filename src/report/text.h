#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "core/outcome.h"
#include "pipeline/swatch_result.h"
#include "report/terms.h"

namespace ridgetally {

/// Whether the text says what the interval is made of.
enum class Detail { plain, explained };

struct TextOptions {
    SizeUnit units = SizeUnit::cm;  ///< of sizes; and which of 10 cm and 4 in comes first
    Terms terms = Terms::us;
    Detail detail = Detail::plain;
};

/// A gauge as a pattern states it.
struct GaugeOfFabric {
    std::optional<StitchFamily> family;
    std::optional<Worked> worked;
    Measured stitches_per_10cm;
    std::optional<Measured> rows_per_10cm;
};

/// The gauge line as patterns print it, over 10 cm or over 4 in: "Gauge: 18 sc and 20 rows = 10 cm".
[[nodiscard]] std::string gauge_line(const GaugeOfFabric& gauge, const Catalog& catalog,
                                     const TextOptions& options);
[[nodiscard]] std::string gauge_line(const SwatchResult& result, const Catalog& catalog,
                                     const TextOptions& options);

/// The report of `ridgetally swatch` for people, lines of at most 80 columns, newline at the end.
[[nodiscard]] std::string swatch_text(const SwatchResult& result, const Catalog& catalog,
                                      const TextOptions& options);

/// The report of `ridgetally scale` for people.
[[nodiscard]] std::string scale_text(const ScaleReport& report, const Catalog& catalog,
                                     const TextOptions& options);

/// What was not measured and what to change: two lines for stderr. No file for commands without a photo.
[[nodiscard]] std::string refusal_text(const Refusal& refusal, const std::string& file);

}  // namespace ridgetally
