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
