#include "report/figures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace ridgetally {
namespace {

TEST(Figures, KeepSixSignificantDigits) {
    EXPECT_EQ(rounded(24.23906433089597), 24.2391);
    EXPECT_EQ(rounded(0.000123456789), 0.000123457);
    EXPECT_EQ(rounded(1234567.0), 1234570.0);
    EXPECT_EQ(rounded(-7.0000004), -7.0);
    EXPECT_FALSE(std::signbit(rounded(-0.0)));
}

TEST(Figures, LastBitsDoNotShow) {
    double sum = 0.0;
    for (int i = 0; i < 10; ++i) sum += 0.1;
    ASSERT_NE(sum, 1.0);
    EXPECT_EQ(rounded(sum), rounded(1.0));
}

TEST(Figures, NeverPrintWhatIsNotANumber) {
    EXPECT_THROW((void)rounded(std::numeric_limits<double>::quiet_NaN()), std::logic_error);
    EXPECT_THROW((void)rounded(std::numeric_limits<double>::infinity()), std::logic_error);
    EXPECT_THROW((void)fixed(std::numeric_limits<double>::quiet_NaN(), 1), std::logic_error);
}

TEST(Figures, PlusMinusIsTheHalfWidthOfTheIntervalRoundedUp) {
    // 1.96 standard uncertainties are 95 % (JCGM 100:2008, table G.1): 1.96 * 0.1 = 0.196.
    EXPECT_EQ(half_width({18.0, 0.1, {}}, 1), "0.2");
    EXPECT_EQ(half_width({18.0, 0.11, {}}, 1), "0.3");  // 0.2156 must not become 0.2
    EXPECT_EQ(half_width({18.0, 0.001, {}}, 1), "0.1");
    EXPECT_EQ(half_width({18.0, 0.0, {}}, 1), "0");
    EXPECT_EQ(with_plus_minus({18.04, 0.1, {}}, 1), "18.0 \u00B1 0.2");
}

TEST(Figures, FixedDecimalsHaveNoMinusZero) {
    EXPECT_EQ(fixed(-0.01, 1), "0.0");
    EXPECT_EQ(fixed(-1.25, 2), "-1.25");
}

// Common practice, no source: patterns print whole and half stitches.
TEST(Figures, PatternsPrintWholeAndHalfStitchesWhereTheIntervalAllows) {
    EXPECT_EQ(pattern_figure({18.1, 0.1, {}}), "18");
    EXPECT_EQ(pattern_figure({18.4, 0.1, {}}), "18.5");
    EXPECT_EQ(pattern_figure({18.2, 0.05, {}}), "18.2");
    EXPECT_EQ(pattern_figure({0.1, 0.2, {}}), "0.1");
}

// N per 10 cm = N per 4 in times 100/101.6 = 0.984252 (one inch is 25.4 mm exactly, NIST Handbook 44,
// Appendix C).
TEST(Figures, TenCentimetresAndFourInchesAreNotTheSame) {
    const Measured over_10cm{16.0, 0.16, {{"x", 0.01}}};
    const Measured over_4in = per_4in(over_10cm);
    EXPECT_NEAR(over_10cm.value / over_4in.value, 0.984252, 5e-7);
    EXPECT_NEAR(over_4in.relative_std(), over_10cm.relative_std(), 1e-12);
}

}  // namespace
}  // namespace ridgetally
