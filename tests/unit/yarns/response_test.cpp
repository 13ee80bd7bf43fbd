#include "yarns/response.h"

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

using Response = WithRecord;

const SwatchJudged relaxed_and_flat{StitchFamily::sc, Worked::flat, FabricState::relaxed, {}, {}};

Measurement washed(Measurement m) {
    m.state = FabricState::washed;
    return m;
}

TEST_F(Response, SeriesAreOfTwoHooksOrMoreAndOfOneKind) {
    const std::vector<StoredMeasurement> stored = {{1, swatch_on(4.0, 20.0, 22.0)},
                                                   {2, swatch_on(5.0, 18.0, 20.0)},
                                                   {3, washed(swatch_on(5.0, 17.0, 20.0))}};
    const auto series = response_series(gauge_by_hook(stored));
    ASSERT_EQ(series.size(), 1U);
    EXPECT_EQ(series[0].kind.state, FabricState::relaxed);
    ASSERT_EQ(series[0].points.size(), 2U);
    // 20 stitches over 100 mm are 5 mm each.
    EXPECT_DOUBLE_EQ(series[0].points[0].stitch_width_mm.value, 5.0);
    EXPECT_EQ(series[0].points[1].hook_mm, 5.0);
}

TEST_F(Response, TheRecordGivesThisYarnAndOthersThatWereTriedOnSeveralHooks) {
    const Record record = open();
    for (const char* name : {"this", "tried", "once"}) must(add_yarn(record, named(name)));
    for (const double hook : {4.0, 5.0}) {
        must(save_measurement(record, "this", swatch_on(hook, 90.0 / hook, 20.0)));
        must(save_measurement(record, "tried", swatch_on(hook, 80.0 / hook, 20.0)));
    }
    must(save_measurement(record, "once", swatch_on(5.0, 16.0, 20.0)));
    const auto found = must(hook_record(record, "this", relaxed_and_flat));
    EXPECT_EQ(found.this_yarn.size(), 2U);
    EXPECT_TRUE(found.this_yarn_otherwise.empty());
    ASSERT_EQ(found.other_yarns.size(), 1U);
    ASSERT_EQ(found.other_yarns[0].size(), 1U);
    EXPECT_EQ(found.other_yarns[0][0].size(), 2U);
    SwatchJudged in_dc = relaxed_and_flat;
    in_dc.stitch = StitchFamily::dc;
    EXPECT_TRUE(must(hook_record(record, "this", in_dc)).this_yarn.empty());
    EXPECT_EQ(code_of(hook_record(record, "nowhere", relaxed_and_flat)), "no-such-yarn");
    EXPECT_EQ(must(hook_record(record, std::nullopt, relaxed_and_flat)).other_yarns.size(), 2U);
}

TEST_F(Response, SwatchesOfAnotherStateAreASeriesOfTheirOwn) {
    const Record record = open();
    must(add_yarn(record, named("this")));
    for (const double hook : {4.0, 5.0}) {
        must(save_measurement(record, "this", swatch_on(hook, 90.0 / hook, 20.0)));
        must(save_measurement(record, "this", washed(swatch_on(hook, 86.0 / hook, 20.0))));
    }
    must(save_measurement(record, "this", washed(swatch_on(6.0, 14.0, 20.0))));
    const auto found = must(hook_record(record, "this", relaxed_and_flat));
    EXPECT_EQ(found.this_yarn.size(), 2U);
    ASSERT_EQ(found.this_yarn_otherwise.size(), 1U);
    EXPECT_EQ(found.this_yarn_otherwise[0].size(), 3U);
    // Not told is not the same as relaxed.
    SwatchJudged not_told = relaxed_and_flat;
    not_told.state.reset();
    EXPECT_TRUE(must(hook_record(record, "this", not_told)).this_yarn.empty());
    EXPECT_EQ(must(hook_record(record, "this", not_told)).this_yarn_otherwise.size(), 2U);
}

TEST_F(Response, TheSwatchJudgedIsNotCountedTwice) {
    const Record record = open();
    must(add_yarn(record, named("this")));
    Measurement photographed = swatch_on(4.0, 20.0, 22.0);
    photographed.photo_file = "moss.jpg";
    photographed.photo_sha256 = std::string(64, 'a');
    must(save_measurement(record, "this", photographed));
    const auto number = must(save_measurement(record, "this", swatch_on(5.0, 18.0, 20.0)));
    EXPECT_EQ(must(hook_record(record, "this", relaxed_and_flat)).this_yarn.size(), 2U);
    SwatchJudged by_photo = relaxed_and_flat;
    by_photo.photos_sha256 = {photographed.photo_sha256};
    EXPECT_EQ(must(hook_record(record, "this", by_photo)).this_yarn.size(), 1U);
    SwatchJudged by_number = relaxed_and_flat;
    by_number.numbers = {number};
    EXPECT_EQ(must(hook_record(record, "this", by_number)).this_yarn.front().hook_mm, 4.0);
}

}  // namespace
}  // namespace ridgetally
