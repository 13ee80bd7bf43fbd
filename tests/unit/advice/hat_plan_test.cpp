#include "advice/hat_plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

Head head_of(double mm) { return {mm, "told", "the maker", {}, {}}; }

HatShape shape_of(double head_in, std::optional<double> ease = 0.0) {
    HatWish wish;
    wish.ease.share = ease;
    return hat_shape(head_of(head_in * mm_per_inch), wish, real_catalog().hat_practice);
}

HatRequest request(const std::string& gauge, double span_mm = span_10cm_mm) {
    HatRequest request;
    request.gauge = made(gauge, span_mm);
    request.stitch = StitchFamily::sc;
    return request;
}

HatPlan plan(double head_mm, const HatRequest& request) {
    const auto gauge = hat_gauge(request, real_catalog()).value();
    return plan_hat(head_of(head_mm), request, gauge, real_catalog()).value();
}

// Published tutorials: a crown is as wide as the circumference over pi: 22 in 7.00 in, 23 in 7.32 in, 13.5
// in 4.3 in, 21 in 6.68 in, 39.5 cm 12.58 cm (printed with 3.14). Height is 0.4 of it: 22 in 8.8 in, 23
// in 9.2 in, 13.5 in 5.4 in.
TEST(HatShape, CrownAndHeightAreThoseOfPublishedExamples) {
    for (const auto& [around, across] : {std::pair{22.0, 7.00}, {23.0, 7.32}, {13.5, 4.30}, {21.0, 6.68}})
        EXPECT_NEAR(shape_of(around).crown_diameter_mm / mm_per_inch, across, 0.005) << around;
    EXPECT_NEAR(shape_of(395.0 / mm_per_inch).crown_diameter_mm, 125.8, 0.1);
    for (const auto& [around, height] : {std::pair{22.0, 8.8}, {23.0, 9.2}, {13.5, 5.4}})
        EXPECT_NEAR(shape_of(around).height_mm / mm_per_inch, height, 1e-9) << around;
}

// Derived from published ease rules: heads of 35.5, 45.5, 56 cm, crowns 10.74, 13.76, 16.93 cm at -5 %, 16.04
// at -10 %.
TEST(HatShape, EaseMakesTheHatSmaller) {
    const HatShape usual = shape_of(560.0 / mm_per_inch, std::nullopt);
    EXPECT_DOUBLE_EQ(usual.ease, -0.05);
    EXPECT_NEAR(usual.circumference_mm, 532.0, 1e-9);
    EXPECT_NEAR(usual.crown_diameter_mm, 169.3, 0.05);
    EXPECT_NEAR(usual.circumference_low_mm / std::numbers::pi, 160.4, 0.05);
    EXPECT_NEAR(usual.crown_diameter_of_head_mm, 178.3, 0.05);
    HatWish inch_less;
    inch_less.ease.length_mm = -mm_per_inch;
    EXPECT_NEAR(hat_shape(head_of(560), inch_less, real_catalog().hat_practice).circumference_mm, 534.6,
                1e-9);
}

TEST(HatShape, AreaIsADiscAndASide) {
    const HatShape hat = shape_of(22.0);
    const double r = 11.0 / std::numbers::pi * mm_per_inch;
    EXPECT_NEAR(hat.area_mm2, std::numbers::pi * r * r + 22 * mm_per_inch * (8.8 * mm_per_inch - r), 1e-6);
}

// Common practice, no source: super-bulky yarn on a 9 mm hook has 44 or 45 stitches around an adult crown of
// about 16 cm, and a beanie is about 22 cm high. Standard Yarn Weight System, category 6: 6 to 9 single
// crochet over 4 in.
TEST(HatPlan, ABeanieOfSuperBulkyYarn) {
    HatRequest bulky = request("9x9", span_4in_mm);
    const HatPlan beanie = plan(530.0, bulky);
    EXPECT_GE(beanie.stitches, 44);
    EXPECT_LE(beanie.stitches, 45);
    EXPECT_NEAR(beanie.circumference_mm.value / std::numbers::pi, 160.0, 5.0);
    EXPECT_NEAR(beanie.height_mm.value, 220.0, 15.0);
    EXPECT_NEAR(beanie.crown.back().diameter_mm.value, beanie.circumference_mm.value / std::numbers::pi,
                12.0);
}

// Flat for the gauge: over heads and gauges the crown ends as wide as the body, half a round and the trade's
// slack allowed, and is told where it would cup or ruffle.
TEST(HatPlan, TheCrownIsAsWideAsTheBody) {
    for (const char* gauge : {"9x9", "13x14", "14x16", "18x20", "13x10", "13x8", "10x4"}) {
        for (const double head : {350.0, 450.0, 560.0, 610.0}) {
            const HatPlan hat = plan(head, request(gauge));
            const double row = hat.crown.front().diameter_mm.value / 2.0;
            EXPECT_NEAR(hat.crown.back().diameter_mm.value, hat.circumference_mm.value / std::numbers::pi,
                        2.0 * row)
                << gauge;
            // Between 0.95 and 1.2 of flat there is always a whole number of rounds from 1.2 / 0.25 = 4.8 on;
            // with fewer rounds of tall stitches it is told.
            EXPECT_TRUE(hat.crown.size() < 5 || !has_reason(hat.reasons, "crown-cups"))
                << gauge << " " << head;
            EXPECT_GT(hat.crown.back().stitches - hat.crown[hat.crown.size() - 2].stitches, 2) << gauge;
        }
    }
}

TEST(HatPlan, StitchesComeInMultiples) {
    for (const int multiple : {1, 2, 3, 4, 6, 8}) {
        HatRequest r = request("14x16");
        r.multiple = multiple;
        const HatPlan hat = plan(560.0, r);
        EXPECT_EQ(hat.stitches % multiple, 0);
        EXPECT_LE(std::abs(hat.stitches - 532.0 * 0.14), 0.5 * multiple + 1e-9);
        EXPECT_EQ(hat.crown.back().stitches, hat.stitches);
    }
}

// A knitting handbook: 20 in at 3 stitches an inch are 60 stitches.
TEST(HatPlan, StitchesAreWidthTimesGauge) {
    HatRequest r = request("3x3", mm_per_inch);
    r.wish.ease.share = 0.0;
    EXPECT_EQ(plan(20 * mm_per_inch, r).stitches, 60);
}

TEST(HatPlan, RoundsReachTheHeight) {
    HatRequest r = request("14x16");
    r.wish.height_mm = 220.0;
    r.brim_mm = 40.0;
    r.wish.turn_up_mm = 50.0;
    const HatPlan hat = plan(560.0, r);
    EXPECT_NEAR(hat.height_mm.value, 220.0, 0.5 * 6.25 + 1e-9);
    EXPECT_EQ(hat.brim_rounds, 6);     // 40 mm over 6.25 mm
    EXPECT_EQ(hat.turn_up_rounds, 8);  // 50 mm over 6.25 mm
    EXPECT_EQ(static_cast<int>(hat.crown.size()) + hat.body_rounds, 35);
}

TEST(HatPlan, AFixedIncreaseIsJudged) {
    HatRequest r = request("14x16");  // flat at 5.5 a round
    r.added_each_round = 6;
    const HatPlan six = plan(560.0, r);
    EXPECT_EQ(six.crown[1].stitches, 12);
    EXPECT_FALSE(has_reason(six.reasons, "crown-ruffles") || has_reason(six.reasons, "crown-cups"));
    r.added_each_round = 8;  // published: 8 of single crochet ruffle
    EXPECT_TRUE(has_reason(plan(560.0, r).reasons, "crown-ruffles"));
    r.added_each_round = 5;
    EXPECT_TRUE(has_reason(plan(560.0, r).reasons, "crown-cups"));
}

TEST(HatPlan, WhatMakesNoHatIsRefused) {
    HatRequest low = request("14x16");
    low.wish.height_mm = 50.0;
    const auto gauge = hat_gauge(low, real_catalog()).value();
    EXPECT_EQ(plan_hat(head_of(560), low, gauge, real_catalog()).refusal().code, "hat-too-low");
    HatRequest coarse = request("0.5x0.5");
    const auto wide = hat_gauge(coarse, real_catalog()).value();
    EXPECT_EQ(plan_hat(head_of(300), coarse, wide, real_catalog()).refusal().code, "no-plan");
}

TEST(HatGauge, RowsOrStitchMustBeKnown) {
    HatRequest neither = request("14");
    neither.stitch.reset();
    EXPECT_EQ(hat_gauge(neither, real_catalog()).refusal().code, "no-rows");
    const HatGauge assumed = hat_gauge(request("14"), real_catalog()).value();
    EXPECT_TRUE(has_reason(assumed.reasons, "rows-assumed"));
    EXPECT_NEAR(assumed.row_height_mm.value / assumed.stitch_width_mm.value, 0.886, 1e-9);
    EXPECT_GT(assumed.row_height_mm.relative_std(), 0.05);
    HatRequest by_shape = request("13x8");
    by_shape.stitch.reset();
    EXPECT_EQ(hat_gauge(by_shape, real_catalog())->stitch, StitchFamily::dc);
    EXPECT_TRUE(has_reason(hat_gauge(request("13x8"), real_catalog())->reasons, "unusual-shape"));
}

// The reverse question, common practice (no source): 44 stitches of super-bulky yarn are a crown of about 16
// cm, an adult's.
TEST(HeadForStitches, AnswersTheReverseQuestion) {
    const HatRequest bulky = request("9x9", span_4in_mm);
    const auto gauge = hat_gauge(bulky, real_catalog()).value();
    const auto answer = head_for(44, bulky, gauge, real_catalog());
    EXPECT_NEAR(answer.crown_diameter_mm.value, 160.0, 5.0);
    EXPECT_NEAR(answer.circumference_mm.value, 44 * 101.6 / 9, 1e-9);
    EXPECT_NEAR(answer.head_mm, answer.circumference_mm.value / 0.95, 1e-9);
    EXPECT_LT(answer.head_low_mm, answer.head_mm);
    EXPECT_GT(answer.head_high_mm, answer.head_mm);
    // Back again: a hat for that head has as many stitches.
    EXPECT_EQ(plan(answer.head_mm, bulky).stitches, 44);
}

TEST(HatPlan, EveryFigureIsDerived) {
    for (const auto& d : plan(560.0, request("14x16")).workings) {
        EXPECT_FALSE(d.formula.empty()) << d.name;
        EXPECT_FALSE(d.source.empty()) << d.name;
    }
}

}  // namespace
}  // namespace ridgetally
