#include "core/quantity.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace ridgetally {
namespace {

// One inch is 25.4 mm exactly (NIST Handbook 44, Appendix C); the rest is decimal.
TEST(Quantity, ReadsLengthsAsPeopleWriteThem) {
    const std::vector<std::pair<std::string, double>> cases = {
        {"85", 85.0},           {"16cm", 160.0},         {"5.5mm", 5.5},       {" 5.5  mm ", 5.5},
        {"5,5 mm", 5.5},        {"6 1/4 in", 158.75},    {"6-1/4 in", 158.75}, {"1/2in", 12.7},
        {"4 inches", 101.6},    {"1 INCH", 25.4},        {"3\"", 76.2},        {"0.3 m", 300.0},
        {"6\u00BC in", 158.75}, {"\u00BD\u2033", 12.7},  {"3 / 8 in", 9.525},  {"1e2 mm", 100.0},
        {"4 in.", 101.6},       {"2\u00A01/2 in", 63.5}, {"12,25 cm", 122.5},  {"+3 mm", 3.0},
    };
    for (const auto& [text, mm] : cases) {
        const auto got = parse_length_mm(text);
        ASSERT_TRUE(got.has_value()) << text;
        EXPECT_DOUBLE_EQ(*got, mm) << text;
    }
}

TEST(Quantity, RefusesWhatIsNoLength) {
    for (const std::string text : {"",     " ",         "mm",       "abc",      "5 furlongs",   "0",
                                   "0 mm", "-3 mm",     "1/0 in",   "1//2 in",  "5 5 mm",       "nan",
                                   "inf",  "1e400 m",   "5.5.5 mm", "1,000 mm", "6 1/4 1/2 in", "1.5/2 in",
                                   "5mm5", "6 -1/4 in", "--5",      "+-5",      "/2 in"}) {
        EXPECT_FALSE(parse_length_mm(text).has_value()) << text;
    }
}

// 1 yd = 0.9144 m, 1 lb = 453.59237 g, 1 oz = 28.349523125 g, exactly (international yard and pound, 1959;
// NIST Handbook 44, Appendix C, from memory).
TEST(Quantity, ReadsYarnLengthsAndMasses) {
    EXPECT_DOUBLE_EQ(*parse_length_mm("87 yd"), 87 * 914.4);
    EXPECT_DOUBLE_EQ(*parse_length_mm("177m"), 177000.0);
    EXPECT_DOUBLE_EQ(*parse_length_mm("2 ft"), 609.6);
    EXPECT_DOUBLE_EQ(*parse_mass_g("50g"), 50.0);
    EXPECT_DOUBLE_EQ(*parse_mass_g("50"), 50.0);
    EXPECT_DOUBLE_EQ(*parse_mass_g("12,4 g"), 12.4);
    EXPECT_DOUBLE_EQ(*parse_mass_g("1 oz"), 28.349523125);
    EXPECT_DOUBLE_EQ(*parse_mass_g("1 3/4 oz."), 1.75 * 28.349523125);
    EXPECT_DOUBLE_EQ(*parse_mass_g("1 lb"), 453.59237);
    for (const std::string text : {"", "g", "0 g", "-4 g", "4 cm", "4 g 5", "1,000 g"}) {
        EXPECT_FALSE(parse_mass_g(text).has_value()) << text;
    }
}

TEST(Quantity, ReadsAreas) {
    EXPECT_DOUBLE_EQ(*parse_area_mm2("15x15cm"), 22500.0);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("15 cm x 15"), 22500.0);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("6 x 6 in"), 36 * 645.16);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("6 1/4 in \u00D7 10 cm"), 158.75 * 100.0);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("36 sq in"), 36 * 645.16);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("225 cm2"), 22500.0);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("0.5 m\u00B2"), 500000.0);
    EXPECT_DOUBLE_EQ(*parse_area_mm2("150x150"), 22500.0);
    for (const std::string text : {"", "15", "15 cm", "x", "5x", "x5", "5x5x5 cm", "0x5 cm", "5 cm x 5 g",
                                   "14x,5e308", "1e-200 x 1e-200"}) {
        EXPECT_FALSE(parse_area_mm2(text).has_value()) << text;
    }
}

TEST(Quantity, ReadsSharesOnlyWithTheirSign) {
    EXPECT_DOUBLE_EQ(*parse_percent("5%"), 0.05);
    EXPECT_DOUBLE_EQ(*parse_percent("-2.5 %"), -0.025);
    EXPECT_DOUBLE_EQ(*parse_percent("2,5%"), 0.025);
    for (const std::string text : {"", "5", "%", "5cm", "x%"}) EXPECT_FALSE(parse_percent(text).has_value());
}

TEST(Quantity, ReadsPairs) {
    EXPECT_EQ(parse_pair("13x16"), std::pair(std::string("13"), std::string("16")));
    EXPECT_EQ(parse_pair(" 12.5 \u00D7 15 "), std::pair(std::string("12.5"), std::string("15")));
    for (const std::string text : {"13", "x16", "13x", "1x2x3", ""})
        EXPECT_FALSE(parse_pair(text).has_value());
}

TEST(Quantity, ReadsPlainNumbersOnly) {
    EXPECT_EQ(parse_number("-10"), -10.0);
    EXPECT_EQ(parse_number(" 0.5 "), 0.5);
    EXPECT_EQ(parse_number("+7"), 7.0);
    for (const std::string text : {"", "x", "1x", "1 2", "nan", "inf", "-", "+", "0x10"}) {
        EXPECT_FALSE(parse_number(text).has_value()) << text;
    }
}

}  // namespace
}  // namespace ridgetally
