#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/stitch.h"

namespace ridgetally {

/// American or British names of stitches: US single crochet is UK double crochet, and so on.
enum class Terms { us, uk };

/// Unit of sizes in texts for people. Gauges are always given over 10 cm and over 4 in.
enum class SizeUnit { cm, inch };

/// How one stitch family is called.
struct StitchTerm {
    std::string_view name;          ///< "single crochet"
    std::string_view abbreviation;  ///< "sc", as patterns print it
};

/// Names in the terms asked for (US and UK names as in the abbreviation lists of published patterns; stitches
/// of the same name one step apart: US sc, hdc, dc, tr = UK dc, htr, tr, dtr).
[[nodiscard]] StitchTerm stitch_term(StitchFamily family, Terms terms);

/// "gauge" or, in UK patterns, "tension".
[[nodiscard]] std::string_view gauge_word(Terms terms);

/// "rows", or "rounds" for work in the round.
[[nodiscard]] std::string_view row_word(std::optional<Worked> worked);

}  // namespace ridgetally
