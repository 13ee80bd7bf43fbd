#include "advice/hook_advice.h"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

const std::vector<double> small_set = {4.0, 4.5, 5.0, 5.5, 6.0, 6.5};

HookRequest request(const std::string& want, double hook_mm = 5.5) {
    HookRequest request;
    request.want = wanted(want);
    request.hook_mm = hook_mm;
    request.own_hooks_mm = small_set;
    return request;
}

HookAdvice advice(const std::string& have, const HookRequest& request) {
    return advise_hook(made(have), request, real_catalog()).value();
}

// Published tutorials and books: more stitches over 4 in than wanted means too small, hence a larger hook;
// fewer means too big, hence a smaller one. (One published tutorial prints it the wrong way round.)
TEST(HookAdvice, MoreStitchesThanWantedNeedALargerHook) {
    const HookAdvice larger = advice("14.5\u00B10.2 x 17\u00B10.2", request("13x16"));
    EXPECT_EQ(larger.verdict, HookVerdict::larger);
    ASSERT_TRUE(larger.trial);
    EXPECT_GT(larger.trial->hook_mm, 5.5);
    EXPECT_LT(larger.error.value, 0.0);
    EXPECT_TRUE(has_reason(larger.reasons, "stitches-too-small"));
    const HookAdvice smaller = advice("11.8\u00B10.2 x 15\u00B10.2", request("13x16"));
    EXPECT_EQ(smaller.verdict, HookVerdict::smaller);
    ASSERT_TRUE(smaller.trial);
    EXPECT_LT(smaller.trial->hook_mm, 5.5);
    EXPECT_TRUE(has_reason(smaller.reasons, "stitches-too-large"));
}

TEST(HookAdvice, DirectionHoldsForEveryMissAndHook) {
    for (const double hook : small_set) {
        for (double want = 10.0; want <= 20.0; want += 1.0) {
            const HookAdvice a = advice("15\u00B10.1", request(std::to_string(want), hook));
            if (want < 14.4) {
                EXPECT_EQ(a.verdict, HookVerdict::larger) << want;
            }
            if (want > 15.6) {
                EXPECT_EQ(a.verdict, HookVerdict::smaller) << want;
            }
            if (a.trial) {
                EXPECT_EQ(a.trial->hook_mm > hook, a.verdict == HookVerdict::larger);
            }
            if (a.ideal_hook_mm && want < 14.4) {
                EXPECT_GT(*a.ideal_hook_mm, hook);
            }
        }
    }
}

// No change that the interval does not support: 12.5 +- 0.4 reaches into 13 less 3 %.
TEST(HookAdvice, KeepsWhereTheIntervalReachesIntoTheTolerance) {
    const HookAdvice a = advice("12.5\u00B10.4 x 16\u00B10.4", request("13x16"));
    EXPECT_EQ(a.verdict, HookVerdict::keep);
    EXPECT_FALSE(a.trial);
    EXPECT_TRUE(has_reason(a.reasons, "not-proven"));
    // The same gauge measured better supports the change.
    EXPECT_EQ(advice("12.5\u00B10.1", request("13")).verdict, HookVerdict::smaller);
    EXPECT_EQ(advice("13\u00B10.1", request("13")).verdict, HookVerdict::keep);
}

TEST(HookAdvice, IsUnsureWhereTheIntervalReachesBeyondOnBothSides) {
    const HookAdvice a = advice("13\u00B12", request("13"));
    EXPECT_EQ(a.verdict, HookVerdict::unsure);
    EXPECT_FALSE(a.trial);
    EXPECT_TRUE(has_reason(a.reasons, "interval-too-wide"));
}

TEST(HookAdvice, ToleranceIsTheMakers) {
    HookRequest loose = request("13");
    loose.tolerance = 0.05;
    EXPECT_EQ(advice("12.5\u00B10.05", loose).verdict, HookVerdict::keep);
    HookRequest strict = request("13");
    strict.tolerance = 0.01;
    EXPECT_EQ(advice("12.5\u00B10.05", strict).verdict, HookVerdict::smaller);
}

// Stitches right and rows off is not the hook's job but that of the first loop (common practice): more rows
// than wanted are too short, so the loop is drawn up higher.
TEST(HookAdvice, RowsAreJudgedApart) {
    const HookAdvice short_rows = advice("13\u00B10.1 x 18\u00B10.1", request("13x16"));
    EXPECT_EQ(short_rows.verdict, HookVerdict::keep);
    ASSERT_TRUE(short_rows.rows);
    EXPECT_EQ(short_rows.rows->verdict, RowVerdict::taller);
    EXPECT_NEAR(short_rows.rows->rows_for_pattern_span, 18.0, 1e-9);
    EXPECT_EQ(advice("13\u00B10.1 x 14\u00B10.1", request("13x16")).rows->verdict, RowVerdict::shorter);
    EXPECT_EQ(advice("13\u00B10.1 x 16\u00B10.1", request("13x16")).rows->verdict, RowVerdict::keep);
    // And the other way about: rows right, stitches off.
    const HookAdvice wide = advice("11.8\u00B10.1 x 16\u00B10.1", request("13x16"));
    EXPECT_EQ(wide.verdict, HookVerdict::smaller);
    EXPECT_EQ(wide.rows->verdict, RowVerdict::keep);
    EXPECT_FALSE(advice("13", request("13x16")).rows);
    EXPECT_FALSE(advice("13x16", request("13")).rows);
}

TEST(HookAdvice, NamesOnlyHooksOfTheMaker) {
    HookRequest few = request("13", 5.5);
    few.own_hooks_mm = {3.0, 5.5, 9.0};
    const HookAdvice a = advice("14\u00B10.1", few);
    EXPECT_EQ(a.verdict, HookVerdict::larger);
    EXPECT_FALSE(a.trial);  // 9 mm would overshoot by far
    EXPECT_TRUE(has_reason(a.reasons, "no-hook-fits"));
    EXPECT_LT(*a.ideal_hook_mm, 9.0);
    HookRequest untold = request("13", 5.5);
    untold.own_hooks_mm.clear();
    const HookAdvice b = advice("14\u00B10.1", untold);
    EXPECT_TRUE(has_reason(b.reasons, "hooks-assumed"));
    EXPECT_DOUBLE_EQ(b.trial->hook_mm, 6.5);
}

TEST(HookAdvice, WithoutAHookItSaysTheDirectionOnly) {
    HookRequest untold = request("13");
    untold.hook_mm.reset();
    const HookAdvice a = advice("14\u00B10.1", untold);
    EXPECT_EQ(a.verdict, HookVerdict::larger);
    EXPECT_FALSE(a.trial);
    EXPECT_FALSE(a.ideal_hook_mm);
    EXPECT_TRUE(has_reason(a.reasons, "hook-not-told"));
}

// Chance and best hook: the named hook has the best chance of its side, better than staying.
TEST(HookAdvice, TheNamedHookHasTheBestChance) {
    const HookAdvice a = advice("14.5\u00B10.1", request("13"));
    ASSERT_TRUE(a.trial);
    EXPECT_GT(a.trial->chance, a.unchanged_hook->chance);
    EXPECT_DOUBLE_EQ(a.chance_within_tolerance, a.trial->chance);
    EXPECT_LT(a.trial->chance, 0.9);  // never a promise
    for (const double hook : small_set) {
        HookRequest only = request("13");
        only.own_hooks_mm = {hook};
        const HookAdvice other = advice("14.5\u00B10.1", only);
        if (other.trial) {
            EXPECT_LE(other.trial->chance, a.trial->chance) << hook;
        }
    }
}

/// Published worked examples of gauge missed: what the piece measures if nothing changes.
struct Worked {
    std::string want;
    std::string have;
    double span_mm;
    double wanted_in;
    double made_in;
};

class IfNothingChanged : public testing::TestWithParam<Worked> {};

TEST_P(IfNothingChanged, ThePieceMeasuresWhatThePublishedExampleSays) {
    const auto& [want, have, span_mm, wanted_in, made_in] = GetParam();
    HookRequest request;
    request.want = wanted(want, span_mm);
    request.piece.width_mm = wanted_in * mm_per_inch;
    const auto a = advise_hook(made(have, span_mm), request, real_catalog()).value();
    EXPECT_NEAR(a.if_unchanged.width_mm.value / mm_per_inch, made_in, 0.051);
}

// A knitting handbook: 60 stitches at 3 an inch are 20 in, at 2.5 an inch 24 in. Published tutorials: 88
// stitches at 8 over 4 in are 44 in, at 9 over 4 in 39.1 in; 160 at 4 an inch are 40 in, at 5 32 in, at 3 53
// 1/3 in; 312 at 6.5 an inch are 48 in, at 6 52 in. A published pattern book: 172 at 4 an inch are 43 in,
// at 4.5 38.2 in.
INSTANTIATE_TEST_SUITE_P(Published, IfNothingChanged,
                         testing::Values(Worked{"3", "2.5", 25.4, 20, 24}, Worked{"8", "9", 101.6, 44, 39.1},
                                         Worked{"4", "5", 25.4, 40, 32}, Worked{"4", "3", 25.4, 40, 53.333},
                                         Worked{"6.5", "6", 25.4, 48, 52},
                                         Worked{"4", "4.5", 25.4, 43, 38.2}));

// Published tutorial: a 46 in garment has 184 stitches at 4 an inch, 195.5 at 4.25. Keeping the hook, the
// count changes.
TEST(HookAdvice, TheCountForTheWantedWidth) {
    HookRequest request;
    request.want = wanted("4", mm_per_inch);
    request.piece.width_mm = 46 * mm_per_inch;
    const auto a = advise_hook(made("4.25", mm_per_inch), request, real_catalog()).value();
    EXPECT_NEAR(a.if_unchanged.stitches_for_width, 195.5, 1e-9);
}

TEST(HookAdvice, SpansMayDiffer) {
    HookRequest over_4in = request("14");
    over_4in.want = wanted("14x16/4in");
    // 13.78 stitches over 10 cm are 14 over 4 in.
    const HookAdvice a = advice("13.78\u00B10.02 x 15.75\u00B10.02", over_4in);
    EXPECT_NEAR(a.error.value, 0.0, 1e-3);
    EXPECT_EQ(a.verdict, HookVerdict::keep);
}

TEST(HookAdvice, EveryFigureIsDerived) {
    for (const auto& d : advice("14.5\u00B10.1 x 17", request("13x16")).workings) {
        EXPECT_FALSE(d.name.empty());
        EXPECT_FALSE(d.formula.empty()) << d.name;
        EXPECT_FALSE(d.source.empty()) << d.name;
        EXPECT_TRUE(std::isfinite(d.result.value)) << d.name;
    }
}

TEST(HookAdvice, MisuseIsThrown) {
    EXPECT_THROW((void)advice("13", request("13", -1.0)), std::invalid_argument);
    HookRequest no_tolerance = request("13");
    no_tolerance.tolerance = 0.0;
    EXPECT_THROW((void)advice("13", no_tolerance), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
