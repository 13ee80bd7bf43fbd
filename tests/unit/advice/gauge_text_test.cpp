#include "advice/gauge_text.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace ridgetally {
namespace {

struct Written {
    std::string text;
    double stitches;
    double rows;     ///< 0: none
    double span_mm;  ///< 0: none
};

TEST(GaugeText, ReadsGaugesAsPeopleWriteThem) {
    for (const auto& w :
         {Written{"13x16", 13, 16, 0}, Written{"12.5", 12.5, 0, 0}, Written{"13 x 16 per 10 cm", 13, 16, 100},
          Written{"14x16/4in", 14, 16, 101.6}, Written{"18 sc and 20 rows = 10 cm", 18, 20, 100},
          Written{"Gauge: 18.5 sc and 20.5 rows = 4 in", 18.5, 20.5, 101.6},
          Written{"Tension: 9 htr and 7.5 rounds = 10cm", 9, 7.5, 100},
          Written{"12,5 \u00D7 15", 12.5, 15, 0}, Written{"13 1/2 x 16", 13.5, 16, 0},
          Written{"13 sts x 16 rows over 4\"", 13, 16, 101.6}, Written{"3/in", 0, 0, 0},
          Written{"3 per 1 in", 3, 0, 25.4}, Written{"12.5\u00B10.3x15\u00B10.4", 12.5, 15, 0}}) {
        const auto gauge = parse_gauge(w.text);
        if (w.stitches == 0) {
            EXPECT_FALSE(gauge) << w.text;
            continue;
        }
        ASSERT_TRUE(gauge) << w.text;
        EXPECT_DOUBLE_EQ(gauge->stitches.value, w.stitches) << w.text;
        EXPECT_EQ(gauge->rows.has_value(), w.rows > 0) << w.text;
        if (gauge->rows) {
            EXPECT_DOUBLE_EQ(gauge->rows->value, w.rows) << w.text;
        }
        EXPECT_DOUBLE_EQ(gauge->span_mm.value_or(0.0), w.span_mm) << w.text;
    }
}

TEST(GaugeText, RefusesWhatIsNoGauge) {
    for (const std::string text :
         {"", "x", "13x", "x16", "13x16x3", "0x5", "-3x4", "13 apples", "13x16 per 10 kg", "13x16 per",
          "1000x2", "13x16/0cm", "nan", "13x16 knit crochet", "13\u00B1-1"}) {
        EXPECT_FALSE(parse_gauge(text)) << text;
    }
}

TEST(GaugeText, KnowsKnitFromCrochet) {
    EXPECT_EQ(parse_gauge("18x24 knit")->craft, Craft::knit);
    EXPECT_EQ(parse_gauge("Knit 18x24 per 4 in")->craft, Craft::knit);
    EXPECT_EQ(parse_gauge("13x16 crochet")->craft, Craft::crochet);
    EXPECT_FALSE(parse_gauge("13x16")->craft);
}

// Half and whole figures are read to the nearest half, +-0.25 evenly: 0.25 / sqrt(3) (JCGM 100:2008, 4.3.7).
// What stands behind the plus-or-minus is 1.96 standard uncertainties.
TEST(GaugeText, CarriesTheUncertaintyOfReading) {
    EXPECT_NEAR(parse_gauge("13")->stitches.std, 0.25 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(parse_gauge("12.5")->stitches.std, 0.25 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(parse_gauge("12.3")->stitches.std, 0.05 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(parse_gauge("12.34")->stitches.std, 0.005 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(parse_gauge("12.5\u00B10.3")->stitches.std, 0.3 / 1.96, 1e-12);
    EXPECT_NEAR(parse_gauge("12.5+-0.3")->stitches.std, 0.3 / 1.96, 1e-12);
    EXPECT_NEAR(parse_gauge("12.5 +/- 0.3")->stitches.std, 0.3 / 1.96, 1e-12);
}

// 4 in are 101.6 mm: a gauge over 10 cm is 0.984252 of the gauge over 4 in.
TEST(GaugeText, TenCentimetresAndFourInchesAreNotMixed) {
    const auto text = parse_gauge("14x16");
    const PatternGauge over_4in = pattern_gauge(*text, span_4in_mm);
    EXPECT_NEAR(over_4in.stitches_per_100mm(), 14 * 0.984252, 1e-5);
    EXPECT_NEAR(*over_4in.rows_per_100mm(), 16 * 0.984252, 1e-5);
    EXPECT_DOUBLE_EQ(pattern_gauge(*text, span_10cm_mm).stitches_per_100mm(), 14.0);
    // The span in the text goes before the one told beside it.
    EXPECT_NEAR(made_gauge(*parse_gauge("14/4in"), span_10cm_mm).stitches_per_100mm.value, 13.7795, 1e-4);
    EXPECT_NEAR(made_gauge(*parse_gauge("14"), span_4in_mm).stitch_width_mm().value, 101.6 / 14, 1e-9);
}

}  // namespace
}  // namespace ridgetally
