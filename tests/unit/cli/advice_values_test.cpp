#include "cli/advice_values.h"

#include <gtest/gtest.h>

#include <CLI/CLI.hpp>
#include <cmath>
#include <string>

namespace ridgetally {
namespace {

// Scales that show 12.4 g may be off by 0.05 g either way, evenly: 0.05 / sqrt(3) (JCGM 100:2008, 4.3.7).
TEST(WeighedValue, IsReadToItsLastDecimal) {
    EXPECT_NEAR(values::weighed_g("12.4g").std, 0.05 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(values::weighed_g("12,4 g").std, 0.05 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(values::weighed_g("12g").std, 0.5 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(values::weighed_g("1.5 oz").std, 0.05 * 28.349523125 / std::sqrt(3.0), 1e-9);
    EXPECT_THROW((void)values::weighed_g("12 cm"), CLI::ValidationError);
}

TEST(SpanValue, IsOneOfTheTwo) {
    EXPECT_EQ(values::span_mm("10cm"), 100.0);
    EXPECT_EQ(values::span_mm("4 in"), 101.6);
    EXPECT_EQ(values::span_mm("100mm"), 100.0);
    for (const char* other : {"5in", "10", "10.16 cm2", "1in", ""})
        EXPECT_THROW((void)values::span_mm(other), CLI::ValidationError) << other;
}

TEST(ToleranceValue, IsAShareOrALength) {
    EXPECT_DOUBLE_EQ(*values::tolerance("3%").share, 0.03);
    EXPECT_DOUBLE_EQ(*values::tolerance("2cm").length_mm, 20.0);
    for (const char* bad : {"3", "0%", "-3%", "80%", "x"})
        EXPECT_THROW((void)values::tolerance(bad), CLI::ValidationError) << bad;
}

TEST(EaseValue, KeepsItsSign) {
    EXPECT_DOUBLE_EQ(*values::ease("-5%").share, -0.05);
    EXPECT_DOUBLE_EQ(*values::ease("0").share, 0.0);
    EXPECT_DOUBLE_EQ(*values::ease("-2.5cm").length_mm, -25.0);
    EXPECT_DOUBLE_EQ(*values::ease("1 in").length_mm, 25.4);
    for (const char* bad : {"-5", "5", "-60%", "-30cm", "tight"})
        EXPECT_THROW((void)values::ease(bad), CLI::ValidationError) << bad;
}

TEST(AgeValue, NeedsItsUnit) {
    EXPECT_DOUBLE_EQ(values::age_months("9months"), 9.0);
    EXPECT_DOUBLE_EQ(values::age_months("2 years"), 24.0);
    EXPECT_DOUBLE_EQ(values::age_months("1.5y"), 18.0);
    for (const char* bad : {"9", "months", "9 weeks", ""})
        EXPECT_THROW((void)values::age_months(bad), CLI::ValidationError) << bad;
}

TEST(HeadValue, IsOneHead) {
    EXPECT_DOUBLE_EQ(values::head_mm("56cm"), 560.0);
    EXPECT_DOUBLE_EQ(values::head_mm("55,5cm"), 555.0);
    EXPECT_DOUBLE_EQ(values::head_mm("22 in"), 558.8);
    for (const char* bad : {"48,52cm", "56", "5m", "10cm"})
        EXPECT_THROW((void)values::head_mm(bad), CLI::ValidationError) << bad;
}

TEST(StockValue, IsBallsOrMass) {
    EXPECT_EQ(values::stock("2.5").balls, 2.5);
    EXPECT_EQ(values::stock("130g").mass_g, 130.0);
    EXPECT_EQ(values::stock("0").balls, 0.0);
    for (const char* bad : {"-1", "2 yd", ""})
        EXPECT_THROW((void)values::stock(bad), CLI::ValidationError) << bad;
}

}  // namespace
}  // namespace ridgetally
