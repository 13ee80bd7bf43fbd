#pragma once

#include <optional>
#include <string_view>

#include "catalog/catalog.h"
#include "core/stitch.h"

namespace ridgetally {

/// American or British names of stitches: US single crochet is UK double crochet, and so on.
enum class Terms { us, uk };

/// Unit of sizes in texts for people. Gauges are always given over 10 cm and over 4 in.
enum class SizeUnit { cm, inch };

/// Names of a family in the terms asked for.
[[nodiscard]] const StitchName& stitch_name(const Catalog& catalog, StitchFamily family, Terms terms);

/// "gauge" or, in UK patterns, "tension".
[[nodiscard]] std::string_view gauge_word(Terms terms);

/// "rows", or "rounds" for work in the round.
[[nodiscard]] std::string_view row_word(std::optional<Worked> worked);

}  // namespace ridgetally
