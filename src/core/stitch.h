#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ridgetally {

/// Stitch families the program tells apart, in US terms (`catalog` has UK terms and published gauges).
enum class StitchFamily { sc, sc_blo, sc_flo, hdc, hdc_blo, dc, tr, stockinette };
inline constexpr int stitch_family_count = 8;

/// The same stitch through both loops; the family itself for every other one.
[[nodiscard]] StitchFamily through_both_loops(StitchFamily family);

/// Whether it is worked through one loop of the row below, whose other one lies free as a ridge.
[[nodiscard]] bool through_one_loop(StitchFamily family);

/// How the piece was worked: turned at the end of every row, or in rounds with the front always facing.
enum class Worked { flat, round };

/// The key used on the command line, in JSON and in models/: "sc-blo", "flat", ...
[[nodiscard]] std::string_view key_of(StitchFamily family);
[[nodiscard]] std::string_view key_of(Worked worked);
[[nodiscard]] std::optional<StitchFamily> stitch_family_from(std::string_view key);
[[nodiscard]] std::optional<Worked> worked_from(std::string_view key);

}  // namespace ridgetally
