#include "cli/yarn_values.h"

#include <gtest/gtest.h>

#include <CLI/CLI.hpp>

namespace ridgetally {
namespace {

TEST(YarnValues, AmountsAreBallsMassOrLength) {
    const auto expect = [](const char* text, double value, AmountUnit unit) {
        const Amount amount = values::amount(text);
        EXPECT_NEAR(amount.value, value, 1e-9) << text;
        EXPECT_EQ(amount.unit, unit) << text;
    };
    expect("2 1/2", 2.5, AmountUnit::balls);
    expect("2½", 2.5, AmountUnit::balls);
    expect("1 ball", 1.0, AmountUnit::balls);
    expect("3.5 balls", 3.5, AmountUnit::balls);
    expect("0", 0.0, AmountUnit::balls);
    expect("none", 0.0, AmountUnit::balls);
    expect("40g", 40.0, AmountUnit::grams);
    expect("1 oz", 28.349523125, AmountUnit::grams);  // exact (NIST Handbook 44, Appendix C)
    expect("120 m", 120.0, AmountUnit::metres);
    expect("100yd", 91.44, AmountUnit::metres);
    for (const char* bad : {"", "-1", "many", "2 skeins", "g", "balls"})
        EXPECT_THROW((void)values::amount(bad), CLI::ValidationError) << bad;
}

TEST(YarnValues, NeedsMayBeFabric) {
    EXPECT_DOUBLE_EQ(std::get<FabricArea>(values::need("30x30cm")).cm2, 900.0);
    EXPECT_DOUBLE_EQ(std::get<FabricArea>(values::need("900 cm2")).cm2, 900.0);
    EXPECT_DOUBLE_EQ(std::get<Amount>(values::need("250m")).value, 250.0);
    EXPECT_THROW((void)values::need("30x30"), CLI::ValidationError);
}

TEST(YarnValues, BandsNameTheirCraft) {
    const BandGauge band = values::band("knit:22x28/4in@4mm");
    EXPECT_EQ(band.craft, Craft::knit);
    EXPECT_EQ(band.stitches, 22.0);
    EXPECT_EQ(band.span_mm, 101.6);
    EXPECT_EQ(band.tool_mm, 4.0);
    EXPECT_FALSE(values::band("crochet:14").rows);
    for (const char* bad :
         {"14x16", "weave:14x16", "crochet:", "crochet:14x16@", "crochet:14x16@4", "@4mm:14"})
        EXPECT_THROW((void)values::band(bad), CLI::ValidationError) << bad;
}

TEST(YarnValues, TheRestIsCheckedToo) {
    EXPECT_DOUBLE_EQ(values::size_share("3 %"), 0.03);
    EXPECT_THROW((void)values::size_share("3"), CLI::ValidationError);
    EXPECT_THROW((void)values::size_share("0%"), CLI::ValidationError);
    EXPECT_THROW((void)values::size_share("51%"), CLI::ValidationError);
    EXPECT_EQ(values::fabric_state("off-hook"), FabricState::off_hook);
    EXPECT_THROW((void)values::fabric_state("wet"), CLI::ValidationError);
    EXPECT_EQ(values::day("2026-11-25"), "2026-11-25");
    EXPECT_THROW((void)values::day("25.11.2026"), CLI::ValidationError);
    EXPECT_EQ(values::number("12"), 12);
    EXPECT_THROW((void)values::number("1.5"), CLI::ValidationError);
    EXPECT_DOUBLE_EQ(values::yarn_length_m("120"), 120.0);
    EXPECT_DOUBLE_EQ(values::yarn_length_m("100 yd"), 91.44);
    EXPECT_DOUBLE_EQ(values::mass_g("50"), 50.0);
}

}  // namespace
}  // namespace ridgetally
