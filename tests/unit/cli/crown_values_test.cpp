#include "cli/crown_values.h"

#include <gtest/gtest.h>

#include <CLI/CLI.hpp>

namespace ridgetally {
namespace {

TEST(CrownValues, ALengthHasItsTolerance) {
    const LengthRange range = values::length_range("16cm");
    EXPECT_NEAR(range.low_mm, 160.0 * (1.0 - single_length_tolerance), 1e-9);
    EXPECT_NEAR(range.high_mm, 160.0 * (1.0 + single_length_tolerance), 1e-9);
}

TEST(CrownValues, TheFirstLengthOfARangeTakesTheUnitOfTheSecond) {
    const LengthRange range = values::length_range("6..6.5in");
    EXPECT_NEAR(range.low_mm, 152.4, 1e-9);
    EXPECT_NEAR(range.high_mm, 165.1, 1e-9);
    EXPECT_NEAR(values::length_range("152mm..16.5cm").high_mm, 165.0, 1e-9);
}

TEST(CrownValues, WhatIsNoRangeIsSaid) {
    for (const char* text : {"", "wide", "16cm..15cm", "..", "6..", "-3cm"})
        EXPECT_THROW((void)values::length_range(text), CLI::ValidationError) << text;
}

TEST(CrownValues, PlansAreListsOfLengths) {
    EXPECT_EQ(values::lengths_mm("4cm,64,8.8cm"), (std::vector<double>{40.0, 64.0, 88.0}));
    EXPECT_THROW((void)values::lengths_mm("4cm,,8cm"), CLI::ValidationError);
}

TEST(CrownValues, StitchesAreWhole) {
    EXPECT_EQ(values::stitch_count("45"), 45);
    for (const char* text : {"0", "-3", "4.5", "45 sts", "99999"})
        EXPECT_THROW((void)values::stitch_count(text), CLI::ValidationError) << text;
}

}  // namespace
}  // namespace ridgetally
