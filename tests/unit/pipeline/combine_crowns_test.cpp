#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "pipeline/measure_crown.h"
#include "pipeline/measure_piece.h"

namespace ridgetally {
namespace {

CrownResult crown(double mm, double std, int stitches, int least, int most, double chance) {
    CrownResult result;
    result.diameter_mm = {mm, std, {}};
    result.diameter_min_mm = {mm, std, {}};
    result.diameter_max_mm = {mm, std, {}};
    result.last_round_stitches = CountedWhole{{static_cast<double>(stitches), 0.3, {}}, least, most, chance};
    return result;
}

bool warns(const std::vector<Warning>& warnings, const std::string& code) {
    return std::any_of(warnings.begin(), warnings.end(), [&](const Warning& w) { return w.code == code; });
}

TEST(CombineCrowns, PhotosThatAgreeTightenTheDiameter) {
    const CrownResult all =
        combine_crowns({crown(160.0, 1.0, 45, 45, 45, 0.9), crown(161.0, 1.0, 45, 44, 46, 0.6)});
    EXPECT_NEAR(all.diameter_mm.value, 160.5, 1e-9);
    EXPECT_LT(all.diameter_mm.std, 1.0);
    EXPECT_EQ(all.last_round_stitches->count.value, 45.0);
    EXPECT_EQ(all.last_round_stitches->least, 45);
    EXPECT_FALSE(warns(all.warnings, "photos-disagree"));
}

TEST(CombineCrowns, CountsThatDifferStayOpen) {
    const CrownResult all =
        combine_crowns({crown(160.0, 1.0, 45, 44, 46, 0.7), crown(160.0, 1.0, 46, 45, 47, 0.5)});
    EXPECT_EQ(all.last_round_stitches->count.value, 45.0);
    EXPECT_LE(all.last_round_stitches->least, 45);
    EXPECT_GE(all.last_round_stitches->most, 46);
}

TEST(CombineCrowns, PhotosOfTwoCrownsAreNoticed) {
    EXPECT_TRUE(warns(
        combine_crowns({crown(160.0, 1.0, 45, 45, 45, 0.9), crown(120.0, 1.0, 36, 36, 36, 0.9)}).warnings,
        "photos-disagree"));
    EXPECT_THROW((void)combine_crowns({}), std::invalid_argument);
}

TEST(CombinePieces, WidthsAreAveragedAndDoubled) {
    PieceResult a;
    a.width_mm = {260.0, 2.0, {}};
    a.height_mm = {200.0, 2.0, {}};
    PieceResult b = a;
    b.width_mm.value = 264.0;
    const PieceResult all = combine_pieces({a, b});
    EXPECT_NEAR(all.width_mm.value, 262.0, 1e-9);
    EXPECT_NEAR(all.circumference_flat_mm.value, 524.0, 1e-9);
    EXPECT_THROW((void)combine_pieces({}), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
