#include "yarns/recorded_use.h"

#include <cmath>

#include "core/trade_units.h"
#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

/// A swatch on 5 mm of so many grams, 150 by 160 mm.
Measurement weighed(double mass_g) {
    Measurement m = swatch_on(5.0, 16.0, 18.0);
    m.mass_g = mass_g;
    m.width_mm = 150.0;
    m.height_mm = 160.0;
    return m;
}

// Evenly likely within half the last unit: half the unit over sqrt(3) (JCGM 100:2008, 4.3.7).
TEST(RecordedUse, AMassIsKnownToHalfItsLastUnit) {
    EXPECT_NEAR(mass_as_recorded(12.0).std, 0.5 / std::sqrt(3.0), 1e-9);
    EXPECT_NEAR(mass_as_recorded(12.4).std, 0.05 / std::sqrt(3.0), 1e-9);
    EXPECT_NEAR(mass_as_recorded(12.45).std, 0.005 / std::sqrt(3.0), 1e-9);
    EXPECT_NEAR(mass_as_recorded(1.5 * g_per_ounce).std, 0.05 * g_per_ounce / std::sqrt(3.0), 1e-6);
    EXPECT_NEAR(mass_as_recorded(2.0 * g_per_ounce).std, 0.5 * g_per_ounce / std::sqrt(3.0), 1e-6);
    EXPECT_NEAR(mass_as_recorded(4.0 * std::acos(-1.0)).std, 0.5 / std::sqrt(3.0), 1e-9);
}

TEST(RecordedUse, SwatchesOfOneKindAreWeighedTogether) {
    const auto use = must(recorded_use(moss(), {{1, weighed(12.4)}, {3, weighed(13.0)}}, {}));
    EXPECT_NEAR(use.weighed.mass_g.value, 25.4, 1e-9);
    EXPECT_NEAR(use.weighed.mass_g.std, std::hypot(0.05, 0.5) / std::sqrt(3.0), 1e-9);
    EXPECT_NEAR(use.weighed.area_mm2.value, 2.0 * 150.0 * 160.0, 1e-6);
    // One ruler, one habit: relative uncertainty does not shrink with the number of swatches.
    EXPECT_NEAR(use.weighed.area_mm2.relative_std(), area_by_hand(150.0 * 160.0).relative_std(), 1e-12);
    EXPECT_NE(use.weighed.source.find("number 1, 3"), std::string::npos) << use.weighed.source;
}

TEST(RecordedUse, TheAreaIsAsSureAsTheReportSays) {
    Measurement m = weighed(12.4);
    m.report =
        R"({"swatch": {"width_mm": {"value": 150.0, "std": 0.6}, "height_mm": {"value": 160.0, "std": 0.48}}})";
    EXPECT_NEAR(must(recorded_use(moss(), {{1, m}}, {})).weighed.area_mm2.relative_std(), 0.005, 1e-12);
    m.report = R"({"swatch": {"width_mm": {"value": 0}, "height_mm": "tall"}})";
    EXPECT_GT(must(recorded_use(moss(), {{1, m}}, {})).weighed.area_mm2.relative_std(), 0.01);
}

TEST(RecordedUse, WithoutAWeighedSwatchThereIsNone) {
    EXPECT_EQ(code_of(recorded_use(moss(), {}, {})), "no-weighed-swatch");
    EXPECT_EQ(code_of(recorded_use(moss(), {{1, swatch_on(5.0, 16.0, 18.0)}}, {})), "no-weighed-swatch");
    Measurement hat = weighed(80.0);  // folded double: its width by its height is not its area
    hat.kind = PieceKind::piece;
    EXPECT_EQ(code_of(recorded_use(moss(), {{1, hat}}, {})), "no-weighed-swatch");
    GaugeChoice on_6mm;
    on_6mm.told.hook_mm = 6.0;
    EXPECT_EQ(code_of(recorded_use(moss(), {{1, weighed(12.4)}}, on_6mm)), "no-weighed-swatch");
}

TEST(RecordedUse, APieceLikeAnother) {
    Measurement hat = weighed(80.0);
    hat.kind = PieceKind::piece;
    EXPECT_EQ(must(recorded_mass(moss(), {{7, hat}}, 7)).value, 80.0);
    EXPECT_EQ(code_of(recorded_mass(moss(), {{7, hat}}, 8)), "no-such-measurement");
    EXPECT_EQ(code_of(recorded_mass(moss(), {{7, swatch_on(5.0, 16.0, 18.0)}}, 7)), "no-weighed-swatch");
}

}  // namespace
}  // namespace ridgetally
