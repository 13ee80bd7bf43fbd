#pragma once

#include <optional>
#include <vector>

#include "core/measured.h"

namespace ridgetally {

/// A repeated part of a round: `before` plain stitches, one stitch with more worked into it, `after` plain
/// ones.
struct IncreaseGroup {
    int before = 0;
    int after = 0;
    int times = 1;
};

/// One round of a crown.
struct CrownRound {
    int number = 1;    ///< from 1
    int stitches = 0;  ///< after it
    int into_plain =
        1;  ///< stitches worked into each stitch without an increase (2 where a round more than doubles)
    int into_increase = 2;  ///< stitches worked into each stitch with an increase
    std::vector<IncreaseGroup>
        groups;  ///< in the order they are worked; empty in the first round and in plain ones
    Measured
        diameter_mm;  ///< of the flat disc after it, 2 x rounds x row height; the start ring adds a little
};

/// Stitches a flat disc of this gauge adds each round: each round adds one row height h to the radius, so the
/// edge grows by 2 pi h, which holds 2 pi h / w stitches of width w (geometry; published tutorials derive it
/// so).
[[nodiscard]] Measured flat_increase(const Measured& stitch_width_mm, const Measured& row_height_mm);

/// Stitches after each round until `stitches` are reached: the whole number nearest to k x `added`, and
/// `stitches` in the last. Throws std::invalid_argument unless added >= 1 and stitches >= 1.
[[nodiscard]] std::vector<int> round_counts(double added, int stitches);

/// The rounds with their increases spread evenly: groups differ by one plain stitch at most, and in even
/// rounds the increase stands in the middle of its group, so that increases do not stack up into the corners
/// of a polygon (common practice).
[[nodiscard]] std::vector<CrownRound> crown_rounds(const std::vector<int>& counts,
                                                   const Measured& row_height_mm);

}  // namespace ridgetally
