#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/catalog.h"
#include "pipeline/swatch_result.h"
#include "report/terms.h"

namespace ridgetally {

/// What the catalog gives for stitches that patterns do not abbreviate.
inline constexpr std::string_view no_abbreviation = "sts";

/// First letter in upper case (ASCII).
[[nodiscard]] std::string capitalised(std::string_view word);

/// "Single crochet (sc), worked flat (turned); as told."
[[nodiscard]] std::string stitch_sentence(const StitchReading& stitch, const Catalog& catalog, Terms terms);

/// One line of the gauge table: over 10 cm and over 4 in, the span of `units` first.
[[nodiscard]] std::string gauge_row(std::string_view label, const Measured& per_10cm, SizeUnit units);

/// What was counted between the outermost ridges found; empty where nothing was.
[[nodiscard]] std::string counted_line(const Overlay& overlay, std::optional<Worked> worked);

/// " (16 to 18)": the whole numbers that cannot be excluded; empty where there is one only.
[[nodiscard]] std::string range_note(int least, int most);

/// Counts, with the numbers that cannot be excluded, and size of the whole swatch; empty where it is not in
/// the frame.
[[nodiscard]] std::string whole_swatch_line(const SwatchResult& result, SizeUnit units);

/// "ruler in millimetres, 8.23 pixels per mm; camera about 40 cm away, tilted 3 degrees."
[[nodiscard]] std::string scale_sentence(const ScaleResult& scale, const Catalog& catalog, SizeUnit units);

/// The rivals worth telling the maker, best first, three at most: those that explain the picture nearly as
/// well as the reading chosen, with scores of 0.9 or more. Where the stitch was told and the reading right,
/// the best rival of rendered photographs scored up to 0.89.
[[nodiscard]] std::vector<RivalGauge> rivals_that_matter(std::vector<RivalGauge> rivals);

/// "Set by hand: scale, area." with a line end; empty where nothing was.
[[nodiscard]] std::string corrected_line(const std::vector<std::string>& corrected);

/// The warnings under their heading; empty where there are none.
[[nodiscard]] std::string warning_lines(const std::vector<Warning>& warnings);

/// The file, or all files of a combined result.
[[nodiscard]] std::string title_line(const PhotoFacts& photo, const std::vector<PhotoFacts>& photos);

/// A size with its plus-or-minus in cm or inches, as in "16.2 \u00B1 0.3 cm".
[[nodiscard]] std::string size_figure(const Measured& mm, SizeUnit units);

}  // namespace ridgetally
