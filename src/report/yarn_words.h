#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "catalog/catalog.h"
#include "report/terms.h"
#include "yarns/gauge_by_hook.h"
#include "yarns/yarn.h"

/// Phrases for yarns and what was measured of them.
namespace ridgetally {

/// "1 yarn", "2 yarns".
[[nodiscard]] std::string counted(std::int64_t count, const std::string& thing);

/// "3½", "⅓", "2.4": halves, thirds, quarters and eighths as fractions, the rest with up to two decimals.
[[nodiscard]] std::string balls_figure(double balls);

/// "3½ balls, 175 g, 420 m": what is left, as far as it is known; "none", "not told".
[[nodiscard]] std::string left_text(const Yarn& yarn);

/// "175 g, 420 m", or in balls where neither is known.
[[nodiscard]] std::string short_left_text(const Yarn& yarn);

/// "Light (3)"; empty where it was not told.
[[nodiscard]] std::string weight_text(const Yarn& yarn, const Catalog& catalog);

/// "4.5 mm"; "not told".
[[nodiscard]] std::string hook_text(const std::optional<double>& hook_mm);

/// "sc, flat", in the terms asked for; "not told".
[[nodiscard]] std::string stitch_text(const GaugeKind& kind, const Catalog& catalog, Terms terms);

/// "relaxed"; "not told".
[[nodiscard]] std::string state_text(const std::optional<FabricState>& state);

/// A gauge over the span of `units`: 10 cm or 4 in.
[[nodiscard]] Measured over_span(const Measured& per_10cm, SizeUnit units);

/// "10 cm" or "4 in".
[[nodiscard]] std::string span_text(SizeUnit units);

}  // namespace ridgetally
