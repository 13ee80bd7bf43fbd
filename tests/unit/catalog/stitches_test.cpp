#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "catalog/catalog.h"

namespace ridgetally {
namespace {

Catalog loaded() { return load_catalog(RIDGETALLY_SOURCE_DIR "/models").value(); }

// The summary figures of a row must be those of the gauges printed in it.
TEST(Stitches, HeightToWidthIsThatOfTheGauges) {
    for (const auto& facts : loaded().stitches) {
        if (facts.gauges.empty()) continue;
        SCOPED_TRACE(std::string(key_of(facts.family)));
        double sum = 0.0, squares = 0.0, low = 1e9, high = 0.0;
        for (const auto& gauge : facts.gauges) {
            const double ratio = gauge.stitches / gauge.rows;
            sum += ratio;
            squares += ratio * ratio;
            low = std::min(low, ratio);
            high = std::max(high, ratio);
        }
        const double n = static_cast<double>(facts.gauges.size());
        EXPECT_NEAR(facts.height_to_width.mean, sum / n, 0.0006);
        EXPECT_LE(facts.height_to_width.low, low + 0.0006);
        EXPECT_GE(facts.height_to_width.high, high - 0.0006);
        if (n >= 4) {
            EXPECT_NEAR(facts.height_to_width.std, std::sqrt((squares - sum * sum / n) / (n - 1)), 0.0006);
        }
    }
}

// Stitches added per round of a flat disc are 2 pi h/w; the trade teaches 6 for sc, 8 for hdc, 10 to 14 for
// dc (common practice). N = 2 pi h/w over published gauges: 5.6, 8.0, 11.0, 15.7.
TEST(Stitches, RoundsOfFlatDiscsComeOutAsTaught) {
    const Catalog catalog = loaded();
    const auto added = [&](StitchFamily f) {
        return 2.0 * std::numbers::pi * facts_of(catalog, f).height_to_width.mean;
    };
    EXPECT_NEAR(added(StitchFamily::sc), 5.6, 0.05);
    EXPECT_NEAR(added(StitchFamily::hdc), 8.0, 0.05);
    EXPECT_NEAR(added(StitchFamily::dc), 11.0, 0.05);
    EXPECT_NEAR(added(StitchFamily::tr), 15.7, 0.05);
}

// The taller stitch is the one with more yarn overs (common practice).
TEST(Stitches, FamiliesAreOrderedByHeight) {
    const Catalog catalog = loaded();
    const auto height = [&](StitchFamily f) { return facts_of(catalog, f).height_to_width.mean; };
    EXPECT_LT(height(StitchFamily::stockinette), height(StitchFamily::sc));
    EXPECT_LT(height(StitchFamily::sc), height(StitchFamily::hdc));
    EXPECT_LT(height(StitchFamily::hdc), height(StitchFamily::dc));
    EXPECT_LT(height(StitchFamily::dc), height(StitchFamily::tr));
}

// US and UK names lie one step apart (abbreviation lists of published patterns, common practice).
TEST(Stitches, UkNamesAreOneStepUp) {
    const Catalog catalog = loaded();
    EXPECT_EQ(facts_of(catalog, StitchFamily::sc).uk.name, facts_of(catalog, StitchFamily::dc).us.name);
    EXPECT_EQ(facts_of(catalog, StitchFamily::dc).uk.abbreviation,
              facts_of(catalog, StitchFamily::tr).us.abbreviation);
    EXPECT_EQ(facts_of(catalog, StitchFamily::hdc).uk.abbreviation, "htr");
}

TEST(Stitches, OnlyTurnedCrochetRepeatsAfterTwoRows) {
    for (const auto& facts : loaded().stitches) {
        EXPECT_EQ(facts.repeat_rows_round, 1);
        EXPECT_EQ(facts.repeat_rows_flat, facts.family == StitchFamily::stockinette ? 1 : 2);
    }
}

}  // namespace
}  // namespace ridgetally
