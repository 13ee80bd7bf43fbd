#include "report/text.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

#include "example_result.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string line_with(const std::string& text, const std::string& part) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (contains(line, part)) return line;
    }
    return {};
}

TEST(SwatchText, GivesBothSpansEachWithItsOwnFigure) {
    const std::string text = swatch_text(example_swatch(), example_catalog(), {});
    const std::string stitches = line_with(text, "Stitches");
    // 18 per 10 cm are 18 / 0.984252 = 18.288 per 4 in; 20 are 20.32 (4 in = 101.6 mm exactly).
    EXPECT_TRUE(contains(stitches, "18.0 \u00B1 0.4 per 10 cm")) << stitches;
    EXPECT_TRUE(contains(stitches, "18.3 \u00B1 0.4 per 4 in")) << stitches;
    EXPECT_TRUE(contains(line_with(text, "Rows"), "20.3 \u00B1 0.4 per 4 in"));
}

TEST(SwatchText, UnitsChooseWhichSpanComesFirst) {
    const std::string metric = line_with(swatch_text(example_swatch(), example_catalog(), {}), "Stitches");
    const std::string inches =
        line_with(swatch_text(example_swatch(), example_catalog(), {SizeUnit::inch, Terms::us}), "Stitches");
    EXPECT_LT(metric.find("10 cm"), metric.find("4 in"));
    EXPECT_LT(inches.find("4 in"), inches.find("10 cm"));
}

TEST(SwatchText, SizesFollowTheUnits) {
    SwatchResult result = example_swatch();
    result.width_mm = Measured{127.0, 1.0, {}};  // 5 in exactly
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), {}), "12.7 \u00B1 0.2 cm wide"));
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), {SizeUnit::inch, Terms::us}),
                         "5.00 \u00B1 0.08 in wide"));
}

// US sc = UK dc, US hdc = UK htr, US dc = UK tr, US tr = UK dtr; gauge = tension (published term tables).
TEST(SwatchText, SpeaksUkTerms) {
    SwatchResult result = example_swatch();
    const TextOptions uk{SizeUnit::cm, Terms::uk};
    EXPECT_EQ(gauge_line(result, example_catalog(), uk), "Tension: 18 dc and 20 rows = 10 cm");
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), uk), "Double crochet (dc)"));
    // "sc" occurs in US texts only.
    EXPECT_FALSE(contains(swatch_text(result, example_catalog(), uk), "sc"));
    result.stitch.family = StitchFamily::hdc;
    EXPECT_EQ(gauge_line(result, example_catalog(), uk), "Tension: 18 htr and 20 rows = 10 cm");
    result.stitch.family = StitchFamily::dc;
    EXPECT_EQ(gauge_line(result, example_catalog(), uk), "Tension: 18 tr and 20 rows = 10 cm");
    result.stitch.family = StitchFamily::tr;
    EXPECT_EQ(gauge_line(result, example_catalog(), uk), "Tension: 18 dtr and 20 rows = 10 cm");
}

TEST(GaugeLine, NamesTheSpanItCountsOver) {
    const SwatchResult result = example_swatch();
    EXPECT_EQ(gauge_line(result, example_catalog(), {}), "Gauge: 18 sc and 20 rows = 10 cm");
    // 18.288 and 20.32 with intervals of 0.36 and 0.4: the nearest halves lie inside.
    EXPECT_EQ(gauge_line(result, example_catalog(), {SizeUnit::inch, Terms::us}),
              "Gauge: 18.5 sc and 20.5 rows = 4 in");
}

TEST(GaugeLine, SaysRoundsInTheRoundAndStitchesWhereTheStitchIsUnknown) {
    SwatchResult result = example_swatch();
    result.stitch.worked = Worked::round;
    EXPECT_EQ(gauge_line(result, example_catalog(), {}), "Gauge: 18 sc and 20 rounds = 10 cm");
    result.stitch = {};
    EXPECT_EQ(gauge_line(result, example_catalog(), {}), "Gauge: 18 stitches and 20 rows = 10 cm");
    result.rows_per_10cm.reset();
    EXPECT_EQ(gauge_line(result, example_catalog(), {}), "Gauge: 18 stitches = 10 cm");
}

TEST(SwatchText, TellsWarningsAndRivalsThatMatter) {
    SwatchResult result = example_swatch();
    result.warnings = {{"tilted", "Hold the phone flat."}};
    result.rivals = {{9.0, 20.0, 0.95}, {36.0, 20.0, 0.6}};
    const std::string text = swatch_text(result, example_catalog(), {});
    EXPECT_TRUE(contains(text, "Hold the phone flat. [tilted]"));
    EXPECT_TRUE(contains(text, "9.0 stitches and 20.0 rows"));
    EXPECT_FALSE(contains(text, "36.0"));
    const std::string explained =
        swatch_text(result, example_catalog(), {SizeUnit::cm, Terms::us, Detail::explained});
    EXPECT_TRUE(contains(explained, "36.0"));
}

TEST(SwatchText, ExplainsTheIntervalLargestPartFirst) {
    const std::string text =
        swatch_text(example_swatch(), example_catalog(), {SizeUnit::cm, Terms::us, Detail::explained});
    // 0.008^2 / (0.006^2 + 0.008^2) = 0.64.
    EXPECT_TRUE(contains(text, "0.80 %  ruler class (64 % of the variance)"));
    EXPECT_LT(text.find("0.80 %  ruler class"), text.find("0.60 %  uneven stitches"));
    EXPECT_FALSE(contains(swatch_text(example_swatch(), example_catalog(), {}), "variance"));
}

TEST(SwatchText, SaysHowSureItIsOfARecognisedStitch) {
    SwatchResult result = example_swatch();
    result.stitch.source = StitchSource::recognised;
    result.stitch.confidence = 0.87;
    result.stitch.any_loop_confidence = 0.95;
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), {}), "recognised, 87 % sure"));
    result.stitch.confidence = 0.5;
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), {}),
                         "recognised, 95 % sure, but through which loop is a guess"));
    result.stitch.confidence = 0.9;
    result.stitch.any_loop_confidence = 0.92;  // as sure of real yarn as that it was mostly wrong
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), {}), "a guess, 92 % sure"));
}

TEST(SwatchText, WholeCountsCarryTheNumbersThatAreNotExcluded) {
    SwatchResult result = example_swatch();
    result.stitches = Measured{17.0, 0.58, {}};  // 15.9 to 18.1
    result.rows = Measured{20.0, 0.3, {}};       // 19.4 to 20.6
    EXPECT_TRUE(contains(swatch_text(result, example_catalog(), {}), "17 stitches (16 to 18) by 20 rows."));
}

TEST(SwatchText, FitsATerminal) {
    SwatchResult result = example_swatch();
    result.warnings = {
        {"code", "word word word word word word word word word word word word word word word word word"}};
    result.stitches = exact(18);
    result.rows = exact(20);
    result.width_mm = result.height_mm = Measured{127.0, 1.0, {}};
    result.stitch.family = StitchFamily::hdc_blo;
    std::istringstream lines(
        swatch_text(result, example_catalog(), {SizeUnit::cm, Terms::us, Detail::explained}));
    for (std::string line; std::getline(lines, line);) EXPECT_LE(columns_of(line), 80U) << line;
}

TEST(ScaleText, SaysWhatWasReadAndHowFar) {
    const SwatchResult swatch = example_swatch();
    const std::string text = scale_text({swatch.photo, swatch.scale, {}}, example_catalog(), {});
    EXPECT_TRUE(contains(text, "101 marks read, from 0.00 to 10.00 cm"));
    EXPECT_TRUE(contains(text, "6.000 \u00B1 0.024 pixels per mm"));
}

TEST(RefusalText, IsOneLineAndAHint) {
    EXPECT_EQ(refusal_text({"scale", "no-ruler", "no ruler found", "lay one beside it"}, "p.jpg"),
              "ridgetally: p.jpg: no ruler found\n  try: lay one beside it\n");
    EXPECT_EQ(refusal_text({"scale", "x", "no", ""}, "p.jpg"), "ridgetally: p.jpg: no\n");
}

}  // namespace
}  // namespace ridgetally
