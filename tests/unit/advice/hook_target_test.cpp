#include <gtest/gtest.h>

#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

HookRequest target(const std::string& want) {
    HookRequest request;
    request.want = wanted(want, span_4in_mm);
    request.hook_mm = 5.5;
    return request;
}

TEST(KnitGauge, CalledSoItIsNoTargetForCrochet) {
    const auto refusal = check_target(target("18x24 knit"), real_catalog());
    ASSERT_TRUE(refusal);
    EXPECT_EQ(refusal->code, "knit-gauge");
    EXPECT_FALSE(advise_hook(made("13x15"), target("18x24 knit"), real_catalog()));
    HookRequest knitting = target("18x24 knit");
    knitting.stitch = StitchFamily::stockinette;
    EXPECT_FALSE(check_target(knitting, real_catalog()));
}

// Standard Yarn Weight System, category 4: 16 to 20 knit stitches over 4 in, 11 to 14 single crochet.
TEST(KnitGauge, OfABallBandIsKnownByTheYarnWeight) {
    HookRequest band = target("18x24");
    EXPECT_FALSE(check_target(band, real_catalog()));  // nothing known of the yarn
    band.yarn_category = 4;
    EXPECT_TRUE(check_target(band, real_catalog()));
    HookRequest crochet = target("13x16");
    crochet.yarn_category = 4;
    EXPECT_FALSE(check_target(crochet, real_catalog()));
    HookRequest meant = target("18x24 crochet");
    meant.yarn_category = 4;
    EXPECT_FALSE(check_target(meant, real_catalog()));
}

TEST(Suspicions, AShapeOfKnittingIsTold) {
    const auto advice = advise_hook(made("13x15", span_4in_mm), target("18x24"), real_catalog()).value();
    EXPECT_TRUE(has_reason(advice.reasons, "looks-like-knit-gauge"));
    EXPECT_FALSE(has_reason(advise_hook(made("13x15", span_4in_mm), target("14x16"), real_catalog())->reasons,
                            "looks-like-knit-gauge"));
}

TEST(Suspicions, LargeMissesAreNotTheHookAlone) {
    EXPECT_TRUE(
        has_reason(advise_hook(made("16\u00B10.1"), target("13"), real_catalog())->reasons, "large-miss"));
    EXPECT_FALSE(
        has_reason(advise_hook(made("13.7\u00B10.1"), target("13"), real_catalog())->reasons, "large-miss"));
}

// UK double crochet is US single crochet (abbreviation lists, common practice). Published gauges: US sc 13 x
// 14, US dc 13 x 8 over 4 in: a maker who works US dc where a UK pattern says dc gets half the rows.
TEST(Suspicions, AnotherStitchPointsToTheTerms) {
    const auto advice = advise_hook(made("13x8", span_4in_mm), target("13x14"), real_catalog()).value();
    ASSERT_TRUE(has_reason(advice.reasons, "other-stitch"));
    for (const auto& reason : advice.reasons) {
        if (reason.code != "other-stitch") continue;
        EXPECT_NE(reason.message.find("US single crochet (UK double crochet)"), std::string::npos);
        EXPECT_NE(reason.message.find("US double crochet (UK treble)"), std::string::npos);
    }
    EXPECT_FALSE(has_reason(advise_hook(made("13x15", span_4in_mm), target("13x14"), real_catalog())->reasons,
                            "other-stitch"));
}

}  // namespace
}  // namespace ridgetally
