#include <sysexits.h>

#include "cli/run_yarn.h"
#include "cli/traceable.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

bool has_code(const json& reasons, const std::string& code) {
    return std::any_of(reasons.begin(), reasons.end(),
                       [&](const json& reason) { return reason["code"] == code; });
}

/// The calculator with a record: an invented yarn on three hooks, washed and not, weighed and not.
class RecordAdvice : public WithYarns {
  protected:
    void SetUp() override {
        WithYarns::SetUp();
        done({"add", moss, "--ball-mass", "50g", "--ball-length", "120m", "--balls", "3 1/2"});
        write("gauges.csv",
              "yarn,hook_mm,stitch,worked,state,stitches_per_10cm,stitches_std,rows_per_10cm,rows_std,mass_g,"
              "width_mm,height_mm\n"
              "\"Fennelwick DK, Moss\",4,sc,flat,relaxed,18,0.1,20,0.1,,,\n"
              "\"Fennelwick DK, Moss\",5,sc,flat,relaxed,16,0.1,18,0.1,11.9,150,150\n"
              "\"Fennelwick DK, Moss\",5,sc,flat,washed,15,0.1,17,0.1,12.4,155,150\n"
              "\"Fennelwick DK, Moss\",6,sc,flat,relaxed,14.4,0.1,16,0.1,,,\n");
        done({"import", path("gauges.csv")});
    }
};

TEST_F(RecordAdvice, AHatFromTheWashedGauge) {
    const std::vector<std::string> question = {"hat", "--yarn", moss, "--hook", "5mm", "--head", "56cm"};
    const json plan = block_of(question, "gauge");
    EXPECT_NEAR(plan["stitch_width_mm"]["value"].get<double>(), 100.0 / 15.0, 1e-4);
    EXPECT_EQ(plan["stitch"], "sc");
    const json reasons = block_of(question, "reasons");
    EXPECT_TRUE(has_code(reasons, "washed-gauge")) << reasons;
    EXPECT_TRUE(has_code(reasons, "flat-gauge")) << reasons;
    EXPECT_TRUE(holds(plan["source"], "washed, number 3")) << plan["source"];
    EXPECT_TRUE(holds(run(question).out, "number 3"));
    auto relaxed = question;
    relaxed.insert(relaxed.end(), {"--state", "relaxed"});
    EXPECT_NEAR(block_of(relaxed, "gauge")["stitch_width_mm"]["value"].get<double>(), 100.0 / 16.0, 1e-4);
    // The reverse question takes the same gauge.
    EXPECT_NEAR(block_of({"hat", "--yarn", moss, "--hook", "5mm", "--stitches", "75"},
                         "head")["circumference_mm"]["value"]
                    .get<double>(),
                500.0, 1e-2);
}

TEST_F(RecordAdvice, WhichHookIsNeverGuessed) {
    for (const std::vector<std::string>& open :
         {std::vector<std::string>{"hat", "--yarn", moss, "--head", "56cm"},
          {"hook", "--yarn", moss, "--want", "15x17"},
          {"hat", "--yarn", moss, "--hook", "9mm", "--head", "56cm"},
          {"hat", "--yarn", "Nowhere", "--head", "56cm"},
          {"yarn-needed", "--yarn", moss, "--hook", "4mm", "--head", "56cm"}}) {
        const Finished refused = run(open);
        EXPECT_EQ(refused.status, 2) << testing::PrintToString(open) << refused.err;
        EXPECT_EQ(refused.out, "");
        EXPECT_TRUE(holds(refused.err, "try: "));
    }
    for (const std::vector<std::string>& wrong :
         {std::vector<std::string>{"hat", "--yarn", moss, "--gauge", "13x16", "--head", "56cm"},
          {"hat", "--hook", "5mm", "--gauge", "13x16", "--head", "56cm"},
          {"hook", "--want", "15x17"},
          {"yarn-needed", "--like", "2"},
          {"yarn-needed", "--hook", "5mm", "--used", "50g"}})
        EXPECT_EQ(run(wrong).status, EX_USAGE) << testing::PrintToString(wrong);
}

TEST_F(RecordAdvice, YarnNeededAndWhetherThereIsEnough) {
    const std::vector<std::string> question = {"yarn-needed", "--yarn",   moss,       "--hook", "5mm",
                                               "--area",      "232.5cm2", "--margin", "0%"};
    const json need = block_of(question, "yarn_needed");
    EXPECT_NEAR(need["mass_g"]["value"].get<double>(), 12.4, 1e-4) << "the area of the washed swatch";
    EXPECT_NEAR(need["length_with_margin_m"].get<double>(), 12.4 * 120 / 50, 1e-3);
    EXPECT_EQ(need["stock_g"], 175.0);
    EXPECT_EQ(need["enough"], "yes");
    auto many = question;
    many.insert(many.end(), {"--count", "20"});
    EXPECT_EQ(block_of(many, "yarn_needed")["enough"], "no");
    // What is told goes before the record.
    auto told = question;
    told.insert(told.end(), {"--stock", "5g", "--ball", "100g/300m"});
    const json with_told = block_of(told, "yarn_needed");
    EXPECT_EQ(with_told["enough"], "no");
    EXPECT_NEAR(with_told["length_with_margin_m"].get<double>(), 12.4 * 3, 1e-3);
    done({"edit", moss, "--balls", "unknown"});
    const json no_stock = block_of(question, "yarn_needed");
    EXPECT_FALSE(no_stock.contains("enough"));
    EXPECT_TRUE(has_code(no_stock["reasons"], "stock-not-known"));
}

TEST_F(RecordAdvice, APieceLikeOneThatWasWeighed) {
    const json need = block_of(
        {"yarn-needed", "--yarn", moss, "--like", "2", "--count", "3", "--margin", "0%"}, "yarn_needed");
    EXPECT_NEAR(need["mass_g"]["value"].get<double>(), 3 * 11.9, 1e-4);
    EXPECT_EQ(run({"yarn-needed", "--yarn", moss, "--like", "1"}).status, 2) << "not weighed";
    EXPECT_EQ(run({"yarn-needed", "--yarn", moss, "--like", "99"}).status, 2);
}

json response_of(std::vector<std::string> more) {
    std::vector<std::string> arguments = {"hook", "--have", "15.2+-0.2", "--want", "14", "--hook", "5.5mm"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return block_of(arguments, "advice")["response"];
}

TEST_F(RecordAdvice, TheResponseIsLearnedFromTheYarnElseFromOthers) {
    const json prior = response_of({});
    EXPECT_EQ(prior["exponent"]["value"], 0.5);
    const json yarn =
        response_of({"--yarn", moss, "--stitch", "sc", "--worked", "flat", "--state", "relaxed"});
    EXPECT_TRUE(holds(yarn["source"], "4 hooks with this yarn")) << yarn["source"];
    EXPECT_LT(yarn["exponent"]["std"], prior["exponent"]["std"]);
    EXPECT_TRUE(holds(response_of({"--yarn", moss, "--stitch", "sc"})["source"], "3 hooks with this yarn"))
        << "another state tells the growth alone";
    done({"add", "Oddmere Four, Cream"});
    for (const auto& source : {response_of({"--stitch", "sc"})["source"],
                               response_of({"--yarn", "Oddmere Four, Cream", "--stitch", "sc"})["source"]}) {
        EXPECT_TRUE(holds(source, "1 other yarn of yours")) << source;
        EXPECT_TRUE(holds(source, "prior: ")) << source;
    }
    EXPECT_FALSE(holds(response_of({"--stitch", "dc"})["source"], "other yarn"));
    const json untold =
        block_of({"hook", "--have", "15", "--want", "14", "--hook", "5.5mm", "--yarn", moss}, "advice");
    EXPECT_TRUE(has_code(untold["reasons"], "stitch-not-told"));
}

TEST_F(RecordAdvice, TheGaugeJudgedMayBeThatOfTheRecord) {
    const json advice = block_of({"hook", "--yarn", moss, "--hook", "5mm", "--want", "14"}, "advice");
    EXPECT_EQ(advice["verdict"], "larger");
    EXPECT_EQ(advice["stitches"]["yours_per_10cm"]["value"], 15.0);
    EXPECT_TRUE(has_code(advice["reasons"], "washed-gauge"));
}

TEST_F(RecordAdvice, ASwatchIsNotCountedTwiceOnceItIsSaved) {
    const std::vector<std::string> question = {
        "swatch", "--stitch", "sc",     "--worked", "flat",   "--state", "relaxed",
        "--want", "14x16",    "--hook", "4.5mm",    "--yarn", moss,      sample("brimful-moss.jpg")};
    const json before = block_of(question, "advice");
    EXPECT_TRUE(holds(before["response"]["source"], "4 hooks with this yarn")) << before["response"];
    auto save = question;
    save.insert(save.end(), {"--save", moss});
    ASSERT_EQ(run(save).status, 0);
    EXPECT_EQ(block_of(question, "advice"), before);
}

TEST_F(RecordAdvice, ACrownIsJudgedAgainstATarget) {
    std::vector<std::string> question = {
        "crown",        "--stitch", "sc-blo", "--want", "16cm",
        "--want-gauge", "8x8",      "--hook", "8mm",    sample("earflap-crown.jpg")};
    const Finished text = run(question);
    EXPECT_EQ(text.status, 0) << text.err;
    EXPECT_TRUE(holds(text.out, "larger than 8 mm")) << text.out;
    question.emplace_back("--json");
    const json document = run(question).json();
    EXPECT_EQ(document["advice"]["verdict"], "larger");
    EXPECT_EQ(document["advice"]["stitches"]["yours_per_10cm"], document["crown"]["stitches_per_10cm"]);
}

TEST_F(RecordAdvice, ADamagedRecordIsSaidAndNotLearnedFrom) {
    write("record.db", "this is no record");
    const Finished without =
        run({"hook", "--have", "15", "--want", "14", "--hook", "5.5mm", "--stitch", "sc"});
    EXPECT_EQ(without.status, 0);
    EXPECT_TRUE(holds(without.err, "left out")) << without.err;
    EXPECT_EQ(
        run({"hook", "--have", "15", "--want", "14", "--hook", "5.5mm", "--stitch", "sc", "--yarn", moss})
            .status,
        EX_DATAERR);
}

TEST_F(RecordAdvice, EveryNumberCanBeTraced) {
    for (const auto& arguments :
         {std::vector<std::string>{"hook", "--yarn", moss, "--hook", "5mm", "--want", "14x16"},
          {"hook", "--have", "15.2+-0.2", "--want", "14", "--hook", "5.5mm", "--yarn", moss, "--stitch",
           "sc"},
          {"hat", "--yarn", moss, "--hook", "5mm", "--head", "56cm"},
          {"yarn-needed", "--yarn", moss, "--hook", "5mm", "--head", "56cm", "--count", "3"},
          {"yarn-needed", "--yarn", moss, "--like", "2", "--count", "3", "--units", "in"}}) {
        EXPECT_EQ(untraceable_numbers_of(arguments), std::vector<std::string>{})
            << testing::PrintToString(arguments);
    }
}

}  // namespace
}  // namespace ridgetally::blackbox
