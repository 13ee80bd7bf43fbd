#include "advice/crown_checks.h"

#include <gtest/gtest.h>

#include <numbers>

namespace ridgetally {
namespace {

CrownFigures beanie() {
    CrownFigures crown;
    crown.diameter_mm = {158.0, 1.0, {}};
    crown.last_round_stitches = Measured{45.0, 0.25, {}};
    crown.least_stitches = 45;
    crown.most_stitches = 45;
    crown.row_height_mm = Measured{11.0, 0.1, {}};
    crown.rounds = 7;
    return crown;
}

CrownCheck only(const CrownFigures& crown, const CrownWishes& wishes) {
    const auto checks = check_crown(crown, wishes);
    EXPECT_EQ(checks.size(), 1U);
    return checks.empty() ? CrownCheck{} : checks.front();
}

// Common practice, no source: a thick-yarn beanie crown of 45 stitches measures 15.2 to 16.5 cm across before
// the sides begin.
TEST(CrownChecks, AThickBeanieCrownOfTheTradeIsMet) {
    CrownWishes wishes;
    wishes.diameter = LengthRange{152.0, 165.0};
    EXPECT_EQ(only(beanie(), wishes).verdict, CheckVerdict::met);
    CrownFigures crown = beanie();
    crown.diameter_mm.value = 171.0;
    EXPECT_EQ(only(crown, wishes).verdict, CheckVerdict::too_large);
    EXPECT_NE(only(crown, wishes).message.find("smaller hook"), std::string::npos);
    crown.diameter_mm.value = 146.0;
    EXPECT_EQ(only(crown, wishes).verdict, CheckVerdict::too_small);
    EXPECT_NE(only(crown, wishes).message.find("larger hook"), std::string::npos);
}

TEST(CrownChecks, WhatOnePhotoCannotTellIsLeftOpen) {
    CrownWishes wishes;
    wishes.diameter = LengthRange{152.0, 158.5};
    const CrownCheck check = only(beanie(), wishes);
    EXPECT_EQ(check.verdict, CheckVerdict::unsure);
    EXPECT_GT(check.chance, 0.5);
    EXPECT_LT(check.chance, 0.95);
}

TEST(CrownChecks, StitchesAgainstThePattern) {
    CrownWishes wishes;
    wishes.last_round_stitches = 45;
    EXPECT_EQ(only(beanie(), wishes).verdict, CheckVerdict::met);
    wishes.last_round_stitches = 48;
    EXPECT_EQ(only(beanie(), wishes).verdict, CheckVerdict::too_small);
    EXPECT_NE(only(beanie(), wishes).message.find("3 too few"), std::string::npos);
    CrownFigures unsure = beanie();
    unsure.most_stitches = 48;
    EXPECT_EQ(only(unsure, wishes).verdict, CheckVerdict::unsure);
}

TEST(CrownChecks, FlatnessTellsRufflesFromCups) {
    CrownWishes wishes;
    const double around = std::numbers::pi * (158.0 - 11.0);
    wishes.stitch_width_mm = around / 45.0;
    EXPECT_EQ(only(beanie(), wishes).verdict, CheckVerdict::met);
    wishes.stitch_width_mm = 1.2 * around / 45.0;
    EXPECT_EQ(only(beanie(), wishes).verdict, CheckVerdict::ruffles);
    wishes.stitch_width_mm = 0.8 * around / 45.0;
    const CrownCheck cups = only(beanie(), wishes);
    EXPECT_EQ(cups.verdict, CheckVerdict::cups);
    // 45 stitches where 45 / 0.8 = 56 have room: 11 over 7 rounds.
    EXPECT_NE(cups.message.find("add 2 a round"), std::string::npos);
}

TEST(CrownChecks, RoundsAreHeldAgainstAPlan) {
    CrownFigures crown = beanie();
    crown.round_sizes = {{2, {50.0, 0.2, {}}}, {3, {72.0, 0.2, {}}}};
    CrownWishes wishes;
    wishes.plan_mm = {25.0, 50.0, 80.0};
    const auto checks = check_crown(crown, wishes);
    ASSERT_EQ(checks.size(), 2U);
    EXPECT_EQ(checks[0].what, "round 2");
    EXPECT_EQ(checks[0].verdict, CheckVerdict::met);
    EXPECT_EQ(checks[1].verdict, CheckVerdict::too_small);
}

// N = 2 pi h / w against printed gauges, with the numbers of stitches that published flat patterns add a
// round (common practice, no source): sc 6 (12 sc x 15 rows per 4 in on a label of category 4 gives 5.0; 10 x
// 10 gives 6.3), dc 11 to 12 (height over width 1.76, mean of published gauges).
TEST(FlatIncrease, AgreesWithPublishedGauges) {
    EXPECT_NEAR(flat_increase(101.6 / 10.0, 101.6 / 10.0), 6.28, 0.01);
    EXPECT_NEAR(flat_increase(101.6 / 15.0, 101.6 / 12.0), 5.03, 0.01);
    EXPECT_NEAR(flat_increase(1.76, 1.0), 11.06, 0.01);
}

TEST(CrownChecks, VerdictsHaveKeys) {
    EXPECT_EQ(key_of(CheckVerdict::too_small), "too-small");
    EXPECT_EQ(key_of(CheckVerdict::ruffles), "ruffles");
}

}  // namespace
}  // namespace ridgetally
