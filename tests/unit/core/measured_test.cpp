#include "core/measured.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "core/units.h"

namespace ridgetally {
namespace {

// JCGM 100:2008 (GUM), example H.1: end-gauge calibration; the budget's parts 25, 9.7 and 16.6 nm (with
// smaller ones left out here) combine in quadrature; 32 nm is the printed result of all parts
// 25, 9.7, 2.9, 16.6.
TEST(Measured, PartsAddInQuadratureAsInGumExampleH1) {
    const double length_nm = 50000838.0;
    const Measured m = measured(length_nm, {{"standard", 25 / length_nm},
                                            {"difference", 9.7 / length_nm},
                                            {"expansion", 2.9 / length_nm},
                                            {"temperature", 16.6 / length_nm}});
    EXPECT_NEAR(m.std, 32.0, 0.5);
}

TEST(Measured, IntervalIsSymmetricAndWidensWithMoreParts) {
    const Measured narrow = measured(20.0, {{"scale", 0.01}});
    const Measured wide = with(narrow, {{"thickness", 0.02}});
    EXPECT_DOUBLE_EQ(narrow.high95() - narrow.value, narrow.value - narrow.low95());
    EXPECT_NEAR(narrow.high95() - narrow.value, 1.96 * 0.2, 1e-12);
    EXPECT_NEAR(wide.relative_std(), std::hypot(0.01, 0.02), 1e-12);
}

TEST(Measured, SameNameIsOnePart) {
    const Measured m = with(measured(1.0, {{"scale", 0.03}}), {{"scale", 0.04}});
    ASSERT_EQ(m.contributions.size(), 1U);
    EXPECT_NEAR(m.contributions[0].relative_std, 0.05, 1e-12);
}

TEST(Measured, ReciprocalKeepsTheRelativeUncertainty) {
    const Measured pitch_mm = measured(5.0, {{"pitch", 0.02}});
    const Measured gauge = reciprocal(span_10cm_mm, pitch_mm);
    EXPECT_DOUBLE_EQ(gauge.value, 20.0);
    EXPECT_NEAR(gauge.std, 0.4, 1e-12);
    EXPECT_THROW((void)reciprocal(1.0, exact(0.0)), std::domain_error);
}

TEST(Measured, WeightedMeanWidensWherePhotosDisagree) {
    const Measured a{20.0, 0.1, {}};
    const Measured b{21.0, 0.1, {}};
    EXPECT_NEAR(weighted_mean({a, b}).value, 20.5, 1e-12);
    EXPECT_NEAR(birge_ratio({a, b}), std::sqrt(50.0), 1e-9);
    EXPECT_GT(weighted_mean({a, b}).std, 0.4);
    EXPECT_NEAR(weighted_mean({a, a}).std, 0.1 / std::sqrt(2.0), 1e-12);
    EXPECT_THROW((void)weighted_mean({}), std::invalid_argument);
}

// Five readings by one ruler that may be 0.3 % long: repetition leaves that error whole and divides the rest
// by the root of five (JCGM 100:2008, H.1 and 5.2.2; worked by hand: 0.4 / sqrt(5) = 0.179; with 0.3: 0.349).
TEST(Measured, WhatIsSharedDoesNotShrink) {
    const Measured one = measured(100.0, {{"ruler", 0.003}, {"reading", 0.004}});
    const std::vector<Measured> five(5, one);
    EXPECT_NEAR(weighted_mean(five).std, 0.5 / std::sqrt(5.0), 1e-9);
    const Measured all = weighted_mean(five, {"ruler"});
    EXPECT_NEAR(all.std, 0.3493, 1e-4);
    ASSERT_EQ(all.contributions.size(), 2U);
    EXPECT_EQ(all.contributions[1].name, "ruler");
    EXPECT_NEAR(all.contributions[1].relative_std, 0.003, 1e-9);
}

TEST(Measured, WhatIsSharedExplainsNoDisagreement) {
    const Measured a = measured(100.0, {{"ruler", 0.01}, {"reading", 0.001}});
    const Measured b = measured(101.0, {{"ruler", 0.01}, {"reading", 0.001}});
    EXPECT_LT(birge_ratio({a, b}), 1.0);
    EXPECT_GT(birge_ratio({a, b}, {"ruler"}), 5.0);
}

// 4 in = 101.6 mm exactly, so a gauge per 10 cm is 0.984252 of the gauge per 4 in.
TEST(Units, TenCentimetresAreNotFourInches) { EXPECT_NEAR(span_10cm_mm / span_4in_mm, 0.984252, 5e-7); }

}  // namespace
}  // namespace ridgetally
