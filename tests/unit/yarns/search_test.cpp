#include "yarns/search.h"

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

HookGauge gauge(Measured stitches, std::optional<Measured> rows) { return {{}, stitches, rows, {}, {}}; }

GaugeWanted wanted(double stitches, std::optional<double> rows, double tolerance = 0.05) {
    GaugeWanted want;
    want.stitches_per_10cm = stitches;
    want.rows_per_10cm = rows;
    want.tolerance = tolerance;
    return want;
}

TEST(Fit, IsOfTheSizeOfThePiece) {
    // 13 wanted, 12.5 measured: a piece of so many stitches is 13 / 12.5 = 4 % too wide.
    const auto fit = fit_of(gauge({12.5, 0.01, {}}, {}), wanted(13.0, {}));
    ASSERT_TRUE(fit);
    EXPECT_EQ(fit->fit, Fit::sure);
    EXPECT_NEAR(fit->size_error, 0.04, 1e-12);
    EXPECT_FALSE(fit_of(gauge({12.5, 0.01, {}}, {}), wanted(13.0, {}, 0.03)));
}

TEST(Fit, ThreeKindsByWhereTheIntervalLies) {
    // Within 5 % of 20: 19.05 to 21.05.
    EXPECT_EQ(fit_of(gauge({20.0, 0.4, {}}, {}), wanted(20.0, {}))->fit, Fit::sure);
    EXPECT_EQ(fit_of(gauge({20.0, 0.7, {}}, {}), wanted(20.0, {}))->fit, Fit::likely);
    EXPECT_EQ(fit_of(gauge({21.5, 0.4, {}}, {}), wanted(20.0, {}))->fit, Fit::possible);
    EXPECT_FALSE(fit_of(gauge({21.5, 0.1, {}}, {}), wanted(20.0, {})));
}

TEST(Fit, TheWorseOfStitchesAndRowsCounts) {
    const auto fit = fit_of(gauge({20.0, 0.1, {}}, Measured{22.9, 0.3, {}}), wanted(20.0, 24.0));
    ASSERT_TRUE(fit);
    EXPECT_EQ(fit->fit, Fit::likely);
    EXPECT_NEAR(fit->size_error, 24.0 / 22.9 - 1.0, 1e-12);
    EXPECT_FALSE(fit_of(gauge({20.0, 0.1, {}}, Measured{30.0, 0.3, {}}), wanted(20.0, 24.0)));
    // Rows that are not known stand against nothing.
    EXPECT_TRUE(fit_of(gauge({20.0, 0.1, {}}, {}), wanted(20.0, 24.0)));
}

using Find = WithRecord;

TEST_F(Find, GivesYarnAndHookBestFirst) {
    const Record record = open();
    must(add_yarn(record, moss()));
    must(add_yarn(record, named("Oddmere Four")));
    must(save_measurement(record, moss().name, swatch_on(4.5, 14.0, 16.0)));
    must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
    must(save_measurement(record, "Oddmere Four", swatch_on(6.0, 13.4, 15.0)));
    const auto matches = must(find_gauge(record, wanted(13.0, 15.0)));
    ASSERT_EQ(matches.size(), 3U);
    EXPECT_EQ(matches[0].yarn.name, moss().name);
    EXPECT_EQ(matches[0].gauge.kind.hook_mm, 5.0);
    EXPECT_EQ(matches[1].yarn.name, "Oddmere Four");
    EXPECT_EQ(matches[2].gauge.kind.hook_mm, 4.5);
    EXPECT_EQ(matches[2].fit, Fit::possible);
}

TEST_F(Find, TheMeanOfSwatchesThatSpreadIsFoundToo) {
    const Record record = open();
    must(add_yarn(record, moss()));
    for (const double stitches : {12.0, 13.5})
        must(save_measurement(record, moss().name, swatch_on(5.0, stitches, 15.0)));
    // Neither swatch is within 1 % of 12.7, their mean is.
    const auto matches = must(find_gauge(record, wanted(12.7, {}, 0.01)));
    ASSERT_EQ(matches.size(), 1U);
    EXPECT_EQ(matches[0].gauge.numbers.size(), 2U);
}

TEST_F(Find, GivesNoMoreThanAskedForAndTheBestOfThem) {
    const Record record = open();
    for (int i = 0; i < 5; ++i) {
        const std::string name = "yarn " + std::to_string(i);
        must(add_yarn(record, named(name)));
        must(save_measurement(record, name, swatch_on(5.0, 13.0 + 0.1 * i, 15.0)));
    }
    GaugeWanted want = wanted(13.2, {});
    want.most = 2;
    const auto matches = must(find_gauge(record, want));
    ASSERT_EQ(matches.size(), 2U);
    EXPECT_EQ(matches[0].yarn.name, "yarn 2");
    EXPECT_LE(matches[1].size_error, 0.1 / 13.1 + 1e-9);
}

TEST_F(Find, ASwatchFarOffCountsInTheMeanAllTheSame) {
    const Record record = open();
    must(add_yarn(record, moss()));
    for (const double stitches : {13.0, 20.0})
        must(save_measurement(record, moss().name, swatch_on(5.0, stitches, 15.0)));
    const auto matches = must(find_gauge(record, wanted(13.0, {}, 0.05)));
    // One swatch of 13 is sure alone; with one of 20 beside it nothing is sure.
    ASSERT_EQ(matches.size(), 1U);
    EXPECT_EQ(matches[0].fit, Fit::possible);
    EXPECT_EQ(matches[0].gauge.numbers.size(), 2U);
}

TEST_F(Find, LooksInStockOnlyUnlessTold) {
    const Record record = open();
    Yarn used_up = moss();
    used_up.balls = 0.0;
    must(add_yarn(record, used_up));
    must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
    GaugeWanted want = wanted(13.0, {});
    EXPECT_TRUE(must(find_gauge(record, want)).empty());
    want.stock = StockChoice::all;
    EXPECT_EQ(must(find_gauge(record, want)).size(), 1U);
}

TEST_F(Find, HoldsToStitchWorkedAndState) {
    const Record record = open();
    must(add_yarn(record, moss()));
    must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
    const auto count = [&](auto set) {
        GaugeWanted want = wanted(13.0, {});
        set(want);
        return must(find_gauge(record, want)).size();
    };
    EXPECT_EQ(count([](GaugeWanted& w) { w.stitch = StitchFamily::sc; }), 1U);
    EXPECT_EQ(count([](GaugeWanted& w) { w.stitch = StitchFamily::dc; }), 0U);
    EXPECT_EQ(count([](GaugeWanted& w) { w.worked = Worked::round; }), 0U);
    EXPECT_EQ(count([](GaugeWanted& w) { w.state = FabricState::washed; }), 0U);
}

TEST_F(Find, TellsWhetherThereIsEnough) {
    const Record record = open();
    must(add_yarn(record, moss()));  // 3.5 balls of 50 g and 120 m
    Measurement weighed = swatch_on(5.0, 13.0, 15.0);
    weighed.mass_g = 12.0;
    weighed.width_mm = 150.0;
    weighed.height_mm = 160.0;
    must(save_measurement(record, moss().name, weighed));
    const auto answer = [&](const Need& need) {
        GaugeWanted want = wanted(13.0, {});
        want.need = need;
        return must(find_gauge(record, want)).at(0);
    };
    EXPECT_EQ(answer(Amount{420.0, AmountUnit::metres}).enough, Sufficiency::yes);
    EXPECT_EQ(answer(Amount{421.0, AmountUnit::metres}).enough, Sufficiency::no);
    EXPECT_EQ(answer(Amount{175.0, AmountUnit::grams}).enough, Sufficiency::yes);
    // 500 g a square metre: 900 square centimetres take 45 g, nine tenths of a ball.
    EXPECT_NEAR(answer(FabricArea{900.0}).balls_needed.value(), 0.9, 1e-9);

    must(add_yarn(record, named("Oddmere Four")));
    must(save_measurement(record, "Oddmere Four", swatch_on(5.0, 13.0, 15.0)));
    GaugeWanted want = wanted(13.0, {});
    want.need = FabricArea{900.0};
    EXPECT_EQ(must(find_gauge(record, want)).at(1).enough, Sufficiency::unknown);
}

}  // namespace
}  // namespace ridgetally
