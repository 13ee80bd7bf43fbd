#include "report/yarn_text.h"

#include <gtest/gtest.h>

#include "report/wrap.h"
#include "report/yarn_document.h"
#include "report/yarn_words.h"
#include "unit/report/example_result.h"

namespace ridgetally {
namespace {

StoredMeasurement swatch(std::int64_t number, double hook_mm, double stitches, FabricState state) {
    Measurement m;
    m.taken = "2026-11-02";
    m.hook_mm = hook_mm;
    m.stitch = StitchFamily::sc;
    m.worked = Worked::flat;
    m.state = state;
    m.stitches_per_10cm = stitches;
    m.stitches_std = 0.1;
    m.rows_per_10cm = stitches + 2.0;
    m.rows_std = 0.1;
    return {number, m};
}

/// An invented yarn.
YarnView example_yarn() {
    YarnView view;
    view.yarn.name = "Fennelwick DK,\nMoss \x1B[31m";
    view.yarn.weight_category = 3;
    view.yarn.ball_g = 50.0;
    view.yarn.ball_m = 120.0;
    view.yarn.balls = 3.5;
    view.yarn.band = {Craft::knit, 22.0, 28.0, 101.6, 4.0};
    view.yarn.added = "2026-10-03";
    view.measurements = {swatch(3, 4.5, 18.0, FabricState::relaxed),
                         swatch(5, 5.0, 16.0, FabricState::relaxed),
                         swatch(8, 5.0, 15.2, FabricState::washed)};
    return view;
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(BallsFigure, WritesFractionsWhereTheyAreRight) {
    EXPECT_EQ(balls_figure(3.5), "3\u00BD");
    EXPECT_EQ(balls_figure(1.0 / 3.0), "\u2153");
    EXPECT_EQ(balls_figure(2.125), "2\u215B");
    EXPECT_EQ(balls_figure(4.0), "4");
    EXPECT_EQ(balls_figure(0.0), "0");
    EXPECT_EQ(balls_figure(2.7), "2.7");
    EXPECT_EQ(balls_figure(0.999), "1");
    EXPECT_EQ(balls_figure(0.41), "0.41");
}

TEST(YarnText, HasGaugeByHookWashingAndGaugeLines) {
    const std::string text = yarn_text(example_yarn(), example_catalog(), {});
    EXPECT_TRUE(holds(text, "Light (3)")) << text;
    EXPECT_TRUE(holds(text, "3\u00BD balls, 175 g, 420 m"));
    EXPECT_TRUE(holds(text, "4.5 mm  sc, flat  relaxed  18.0 \u00B1 0.2  20.0 \u00B1 0.2  3"));
    EXPECT_TRUE(holds(text, "5.0 % \u00B1 1.7 % fewer stitches"));
    EXPECT_TRUE(holds(text, "Gauge: 18 sc and 20 rows = 10 cm, hook 4.5 mm, relaxed"));
    EXPECT_TRUE(holds(text, "knitting over 10.16 cm"))
        << "a knit gauge must never look like a target for crochet";
    EXPECT_TRUE(holds(text, "no target for crochet"));
    EXPECT_TRUE(holds(text, "sc, flat, relaxed: stitch width grows as hook^"));
}

TEST(YarnText, SpeaksTheUnitsAndTermsAskedFor) {
    TextOptions options;
    options.units = SizeUnit::inch;
    options.terms = Terms::uk;
    const std::string text = yarn_text(example_yarn(), example_catalog(), options);
    EXPECT_TRUE(holds(text, "over 4 in"));
    EXPECT_TRUE(holds(text, "18.3 \u00B1 0.2"));  // 18 times 1.016
    EXPECT_TRUE(holds(text, "dc, flat"));
    EXPECT_TRUE(holds(text, "Tension: "));
}

TEST(YarnText, NamesCannotWriteOverTheTerminal) {
    const YarnView view = example_yarn();
    for (const std::string& text :
         {yarn_text(view, example_catalog(), {}), stock_text({{view.yarn, 3}}, example_catalog())}) {
        EXPECT_EQ(text.find('\x1B'), std::string::npos);
        EXPECT_TRUE(holds(text, "Fennelwick DK,\u240AMoss \u241B[31m")) << text;
    }
}

TEST(YarnText, OfAYarnThatWasNeverMeasuredSaysWhatToDo) {
    YarnView view = example_yarn();
    view.measurements.clear();
    EXPECT_TRUE(holds(yarn_text(view, example_catalog(), {}), "--save"));
    EXPECT_TRUE(holds(stock_text({}, example_catalog()), "yarn add"));
}

TEST(YarnText, CountsOneAndMany) {
    RecordCheck check;
    check.yarns = 1;
    check.measurements = 2;
    const std::string text = check_text(check, "record.db");
    EXPECT_NE(text.find("  1 yarn, 2 measurements; 0 more removed"), std::string::npos) << text;
}

TEST(MatchesText, TellsFitGaugeAndWhatIsMissing) {
    const YarnView view = example_yarn();
    Match match{view.yarn, gauge_by_hook(view.measurements).at(0), Fit::sure, 0.01, Sufficiency::no, 4.0};
    GaugeWanted wanted;
    wanted.stitches_per_10cm = 18.0;
    wanted.need = Amount{4.0, AmountUnit::balls};
    const std::string text = matches_text({match}, wanted, example_catalog(), {});
    EXPECT_TRUE(holds(text, "18 stitches over 10 cm, within 5 % of the size")) << text;
    EXPECT_TRUE(holds(text, "4.5 mm"));
    EXPECT_TRUE(holds(text, "no, \u00BD balls short"));
    EXPECT_TRUE(holds(matches_text({}, wanted, example_catalog(), {}), "--tolerance"));

    const Document document = matches_document({match});
    EXPECT_EQ(document["schema"], "ridgetally.yarns/1");
    EXPECT_EQ(document["matches"][0]["enough"], false);
    EXPECT_EQ(document["matches"][0]["stitches_per_10cm"]["value"], 18.0);
}

TEST(YarnDocument, ListsNamesAndAmounts) {
    const Document document = stock_document({{example_yarn().yarn, 3}});
    EXPECT_EQ(document["yarns"][0]["name"], example_yarn().yarn.name);
    EXPECT_EQ(document["yarns"][0]["grams_left"], 175.0);
    EXPECT_EQ(document["yarns"][0]["measured"], 3);
    const Document view = yarn_view_document(example_yarn());
    EXPECT_EQ(view["yarns"][0]["gauge_by_hook"].size(), 3U);
    EXPECT_EQ(view["yarns"][0]["measurements"][0]["number"], 3);
}

}  // namespace
}  // namespace ridgetally
