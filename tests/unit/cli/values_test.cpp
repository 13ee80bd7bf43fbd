#include "cli/values.h"

#include <gtest/gtest.h>

#include <CLI/CLI.hpp>
#include <string>

namespace ridgetally {
namespace {

TEST(StitchValue, TakesTheKeysAndForgivesCapitals) {
    EXPECT_EQ(values::stitch("sc"), StitchFamily::sc);
    EXPECT_EQ(values::stitch("SC_BLO"), StitchFamily::sc_blo);
    EXPECT_EQ(values::stitch("stockinette"), StitchFamily::stockinette);
}

// UK names mean other stitches; none is taken silently.
TEST(StitchValue, RefusesUkAndSpeltOutNamesAndSaysTheKeys) {
    for (const std::string text : {"htr", "dtr", "treble", "single crochet", "", "scblo"}) {
        try {
            (void)values::stitch(text);
            FAIL() << text;
        } catch (const CLI::ValidationError& fault) {
            EXPECT_NE(std::string(fault.what()).find("sc-blo"), std::string::npos) << fault.what();
            EXPECT_NE(std::string(fault.what()).find("UK"), std::string::npos) << fault.what();
        }
    }
}

TEST(TwoPointsValue, ReadsPointsAndAForgivingLength) {
    const TwoPointScale plain = values::two_points("0,0,1000,0,108.885");
    EXPECT_EQ(plain.to_px.x, 1000.0);
    EXPECT_DOUBLE_EQ(plain.length_mm, 108.885);
    EXPECT_DOUBLE_EQ(values::two_points("12.5,-3, 40, 7,6 1/4 in").length_mm, 158.75);
    EXPECT_DOUBLE_EQ(values::two_points("1,2,3,4,8,5cm").length_mm, 85.0);
    EXPECT_EQ(values::two_points("12.5,-3, 40, 7,1in").from_px.y, -3.0);
}

TEST(TwoPointsValue, RefusesWhatIsIncompleteOrImpossible) {
    for (const std::string text : {"", "1,2,3,4", "1,2,3,4,", "1,2,3,4,0", "1,2,3,4,-5", "1,2,1,2,50",
                                   "a,2,3,4,5", "1,,3,4,5", "1,2,3,4,5 furlongs", "nan,2,3,4,5"}) {
        EXPECT_THROW((void)values::two_points(text), CLI::ValidationError) << text;
    }
}

TEST(AreaValue, ReadsCorners) {
    const auto corners = values::area("20,300,620,300,660,600");
    ASSERT_EQ(corners.size(), 3U);
    EXPECT_EQ(corners[2].x, 660.0);
    EXPECT_EQ(corners[2].y, 600.0);
}

TEST(AreaValue, RefusesOddCountsTwoCornersAndLines) {
    for (const std::string text :
         {"", "1,2,3,4", "1,2,3,4,5", "1,2,3,4,5,6,", "0,0,10,10,20,20", "a,b,c,d,e,f"}) {
        EXPECT_THROW((void)values::area(text), CLI::ValidationError) << text;
    }
}

TEST(DegreesValue, TakesNegativeNumbersAndUnits) {
    EXPECT_EQ(values::degrees("-10"), -10.0);
    EXPECT_EQ(values::degrees("7.5deg"), 7.5);
    EXPECT_EQ(values::degrees("7.5 \u00B0"), 7.5);
    EXPECT_THROW((void)values::degrees("north"), CLI::ValidationError);
    EXPECT_THROW((void)values::degrees("1000"), CLI::ValidationError);
    EXPECT_THROW((void)values::degrees(""), CLI::ValidationError);
}

TEST(RepeatValue, ReadsStitchesByRows) {
    EXPECT_EQ(values::repeat("4x2").stitches, 4);
    EXPECT_EQ(values::repeat("4 X 2").rows, 2);
    for (const std::string text : {"", "4", "4x", "x2", "0x2", "4x2.5", "4x2x1", "-4x2", "4x999"}) {
        EXPECT_THROW((void)values::repeat(text), CLI::ValidationError) << text;
    }
}

TEST(CorrectionValue, IsTrueOverNominalLength) {
    EXPECT_DOUBLE_EQ(values::correction("1.012"), 1.012);
    EXPECT_DOUBLE_EQ(values::correction("101.2:100"), 1.012);
    EXPECT_DOUBLE_EQ(values::correction("99/100"), 0.99);
    for (const std::string text : {"", "0", "2", "-1", "100:0", "ten", "1:"}) {
        EXPECT_THROW((void)values::correction(text), CLI::ValidationError) << text;
    }
}

TEST(OtherValues, ReadWordsAndLengths) {
    EXPECT_EQ(values::worked("Round"), Worked::round);
    EXPECT_EQ(values::ruler_unit("cm"), LengthUnit::mm);
    EXPECT_EQ(values::ruler_unit("inches"), LengthUnit::inch);
    EXPECT_DOUBLE_EQ(values::length_mm("1/8 in"), 3.175);
    EXPECT_EQ(values::size_unit("IN"), SizeUnit::inch);
    EXPECT_EQ(values::terms("UK"), Terms::uk);
    EXPECT_EQ(values::jobs("8"), 8U);
    EXPECT_THROW((void)values::size_unit("ells"), CLI::ValidationError);
    EXPECT_THROW((void)values::terms("au"), CLI::ValidationError);
    for (const std::string text : {"0", "-1", "2.5", "many", "1e9"}) {
        EXPECT_THROW((void)values::jobs(text), CLI::ValidationError) << text;
    }
    EXPECT_THROW((void)values::worked("sideways"), CLI::ValidationError);
    EXPECT_THROW((void)values::ruler_unit("ell"), CLI::ValidationError);
    EXPECT_THROW((void)values::length_mm("thick"), CLI::ValidationError);
}

}  // namespace
}  // namespace ridgetally
