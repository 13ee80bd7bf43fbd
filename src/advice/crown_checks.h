#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/measured.h"

namespace ridgetally {

/// Lengths that are right.
struct LengthRange {
    double low_mm = 0.0;
    double high_mm = 0.0;
};

/// A single length as people ask for it: so much more or less is right. Hat sizes are 2 cm of head apart
/// (hat-trade letters, S9: S 55 to 56, M 57 to 58 cm), so half a size on 57 cm is 1.75 per cent.
inline constexpr double single_length_tolerance = 0.0175;

/// What a crown should come to.
struct CrownWishes {
    std::optional<LengthRange> diameter;
    std::optional<int> last_round_stitches;
    std::vector<double> plan_mm;            ///< diameter after each round, inner first
    std::optional<double> stitch_width_mm;  ///< of a flat swatch of the same yarn and hook
};

/// Diameter of a crown after one round.
struct RoundSize {
    int round = 0;  ///< 1: the first
    Measured diameter_mm;
};

/// A crown as measured, for checking.
struct CrownFigures {
    Measured diameter_mm;
    std::optional<Measured> last_round_stitches;
    int least_stitches = 0;  ///< cannot be excluded
    int most_stitches = 0;
    std::optional<Measured> row_height_mm;
    std::vector<RoundSize> round_sizes;
    int rounds = 0;
};

enum class CheckVerdict { met, too_small, too_large, ruffles, cups, unsure };
[[nodiscard]] std::string_view key_of(CheckVerdict verdict);

/// One check, with what to do about it in words.
struct CrownCheck {
    std::string what;  ///< "diameter", "stitches", "flatness", "round 3"
    CheckVerdict verdict = CheckVerdict::unsure;
    double chance = 0.0;  ///< that it is met
    std::string message;
};

/// Every check that was wished for and can be made.
[[nodiscard]] std::vector<CrownCheck> check_crown(const CrownFigures& crown, const CrownWishes& wishes);

/// Stitches a round that keep a disc flat: the circumference grows by 2 pi times the height of a round, and
/// each stitch takes up its width (geometry).
[[nodiscard]] double flat_increase(double row_height_mm, double stitch_width_mm);

/// A size against what it should be, for crowns and other pieces. `what` opens the message's line.
[[nodiscard]] CrownCheck check_size(const std::string& what, const Measured& mm, const LengthRange& wanted);

}  // namespace ridgetally
