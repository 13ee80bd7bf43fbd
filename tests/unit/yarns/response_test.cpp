#include "yarns/response.h"

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

using Response = WithRecord;

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
    const auto found = must(hook_record(record, "this", StitchFamily::sc));
    EXPECT_EQ(found.this_yarn.size(), 2U);
    ASSERT_EQ(found.other_yarns.size(), 1U);
    EXPECT_EQ(found.other_yarns[0].size(), 2U);
    EXPECT_TRUE(must(hook_record(record, "this", StitchFamily::dc)).this_yarn.empty());
    EXPECT_EQ(code_of(hook_record(record, "nowhere", StitchFamily::sc)), "no-such-yarn");
}

}  // namespace
}  // namespace ridgetally
