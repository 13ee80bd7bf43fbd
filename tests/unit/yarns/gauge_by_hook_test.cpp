#include "yarns/gauge_by_hook.h"

#include <cmath>

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

StoredMeasurement stored(std::int64_t number, Measurement measurement) {
    return {number, std::move(measurement)};
}

Measurement washed(Measurement measurement) {
    measurement.state = FabricState::washed;
    return measurement;
}

TEST(GaugeByHook, TakesTogetherWhatIsAlikeAndSortsByHook) {
    Measurement in_rounds = swatch_on(4.5, 14.0, 16.0);
    in_rounds.worked = Worked::round;
    Measurement no_gauge = swatch_on(4.5, 14.0, 16.0);
    no_gauge.stitches_per_10cm.reset();
    no_gauge.stitches_std.reset();
    const auto gauges =
        gauge_by_hook({stored(1, swatch_on(5.0, 13.0, 15.0)), stored(2, swatch_on(4.5, 14.0, 16.0)),
                       stored(3, swatch_on(5.0, 13.2, 15.0)), stored(4, washed(swatch_on(5.0, 12.5, 15.0))),
                       stored(5, in_rounds), stored(6, no_gauge)});
    ASSERT_EQ(gauges.size(), 4U);
    EXPECT_EQ(gauges[0].numbers, (std::vector<std::int64_t>{2}));
    EXPECT_EQ(gauges[1].numbers, (std::vector<std::int64_t>{5}));
    EXPECT_EQ(gauges[2].numbers, (std::vector<std::int64_t>{1, 3}));
    EXPECT_EQ(gauges[3].kind.state, FabricState::washed);
}

TEST(GaugeByHook, SwatchesThatAgreeAreSurerAndOnesThatDoNotAreNot) {
    const auto close =
        gauge_by_hook({stored(1, swatch_on(5.0, 13.0, 15.0)), stored(2, swatch_on(5.0, 13.0, 15.0))});
    // Two equal measurements of 2 %: 2 % over the root of two (JCGM 100:2008, clause 4.2.3).
    EXPECT_NEAR(close[0].stitches_per_10cm.std, 0.26 / std::sqrt(2.0), 1e-12);
    const auto apart =
        gauge_by_hook({stored(1, swatch_on(5.0, 12.0, 15.0)), stored(2, swatch_on(5.0, 14.0, 15.0))});
    EXPECT_GT(apart[0].stitches_per_10cm.std, 0.5);
}

TEST(GaugeByHook, RowsAreTheMeanOfThoseThatHaveThem) {
    Measurement no_rows = swatch_on(5.0, 13.0, 15.0);
    no_rows.rows_per_10cm.reset();
    no_rows.rows_std.reset();
    const auto gauges = gauge_by_hook({stored(1, no_rows), stored(2, swatch_on(5.0, 13.0, 15.0))});
    EXPECT_DOUBLE_EQ(gauges.at(0).rows_per_10cm.value().value, 15.0);
    EXPECT_FALSE(gauge_by_hook({stored(1, no_rows)}).at(0).rows_per_10cm);
}

TEST(GaugeByHook, MassPerAreaIsOfTheSwatchesThatWereWeighed) {
    Measurement weighed = swatch_on(5.0, 13.0, 15.0);
    weighed.mass_g = 12.0;
    weighed.width_mm = 150.0;
    weighed.height_mm = 160.0;
    const auto gauges = gauge_by_hook({stored(1, weighed), stored(2, swatch_on(5.0, 13.0, 15.0))});
    // 12 g over 0.15 m by 0.16 m.
    EXPECT_NEAR(gauges.at(0).mass_per_area_g_m2.value(), 500.0, 1e-9);
}

TEST(Washing, ComparesLikeWithLike) {
    const auto gauges =
        gauge_by_hook({stored(1, swatch_on(4.5, 14.0, 16.0)), stored(2, swatch_on(5.0, 13.0, 15.0)),
                       stored(3, washed(swatch_on(5.0, 12.35, 15.3)))});
    const auto changes = washing_changes(gauges);
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes[0].unwashed.hook_mm, 5.0);
    EXPECT_NEAR(changes[0].stitches.value, -0.05, 1e-12);
    // 2 % each, in quadrature, of a ratio of 0.95.
    EXPECT_NEAR(changes[0].stitches.std, 0.95 * 0.02 * std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(changes[0].rows.value().value, 0.02, 1e-12);
}

TEST(Washing, AStateThatWasNotToldIsNotTakenForUnwashed) {
    Measurement unknown = swatch_on(5.0, 13.0, 15.0);
    unknown.state.reset();
    EXPECT_TRUE(
        washing_changes(gauge_by_hook({stored(1, unknown), stored(2, washed(swatch_on(5.0, 12.0, 15.0)))}))
            .empty());
}

}  // namespace
}  // namespace ridgetally
