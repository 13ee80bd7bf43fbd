#include <gtest/gtest.h>

#include <cmath>

#include "blackbox/measured_shot.h"

namespace ridgetally::blackbox {
namespace {

/// Photos of one stitch, measured as if they showed another, whose rows are half or twice as high.
struct Mistake {
    const char* name;
    StitchFamily worked;
    StitchFamily told;
    std::uint64_t first_seed;
};

void PrintTo(const Mistake& mistake, std::ostream* out) { *out << mistake.name; }

class WrongStitchTold : public testing::TestWithParam<Mistake> {};

bool warned(const SwatchResult& result) {
    for (const Warning& warning : result.warnings)
        if (warning.code == "rows-doubted") return !result.rows_per_10cm;
    return false;
}

TEST_P(WrongStitchTold, GivesNoWrongRows) {
    constexpr int photos = 8;
    const Mistake& mistake = GetParam();
    synthetic::Variety variety = usual_variety();
    variety.family = mistake.worked;
    variety.worked = Worked::flat;
    int warnings = 0;
    for (std::uint64_t seed = mistake.first_seed; seed < mistake.first_seed + photos; ++seed) {
        const synthetic::Shot shot = synthetic::random_swatch(seed, variety);
        const Taken photo = taken(shot);
        SwatchOptions options;
        options.stitch = mistake.told;
        options.worked = Worked::flat;
        Trace nobody_listens;
        const auto result = measure_swatch(photo.photo, knowledge(), options, nobody_listens);
        if (!result) continue;
        warnings += warned(*result) ? 1 : 0;
        if (!result->rows_per_10cm) continue;
        const double off = result->rows_per_10cm->value / photo.truth.fabrics.front().rows_per_10cm() - 1.0;
        EXPECT_LT(std::abs(off), miscounted_from) << "seed " << seed;
    }
    EXPECT_GT(warnings, 0);
}

// Thirteen rows of double crochet, strongly striped: the plain search, told the stitch, reads eleven.
TEST(RightStitchTold, RowsThatAreSeenOtherwiseAreNotGiven) {
    synthetic::Variety variety;
    variety.laid_on_share = 0.0;
    const synthetic::Shot shot = synthetic::random_swatch(86001, variety);
    const Taken photo = taken(shot);
    SwatchOptions options;
    options.stitch = StitchFamily::dc;
    options.worked = Worked::flat;
    Trace nobody_listens;
    const auto result = measure_swatch(photo.photo, knowledge(), options, nobody_listens);
    ASSERT_TRUE(result) << result.refusal().message;
    const double stitches = photo.truth.fabrics.front().stitches_per_10cm();
    EXPECT_NEAR(result->stitches_per_10cm.value / stitches, 1.0, miscounted_from);
    if (result->rows_per_10cm) {
        const double rows = photo.truth.fabrics.front().rows_per_10cm();
        EXPECT_LT(std::abs(result->rows_per_10cm->value / rows - 1.0), miscounted_from);
    } else {
        EXPECT_TRUE(warned(*result));
    }
}

INSTANTIATE_TEST_SUITE_P(
    Pairs, WrongStitchTold,
    testing::Values(Mistake{"half_double_as_single", StitchFamily::hdc, StitchFamily::sc, 24000},
                    Mistake{"double_as_single", StitchFamily::dc, StitchFamily::sc, 24100},
                    Mistake{"single_as_double", StitchFamily::sc, StitchFamily::dc, 24200}),
    [](const auto& mistake) { return mistake.param.name; });

}  // namespace
}  // namespace ridgetally::blackbox
