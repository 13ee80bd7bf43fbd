#include <gtest/gtest.h>
#include <stdlib.h>
#include <sysexits.h>

#include "cli/run_program.h"
#include "cli/traceable.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;

json advice_of(const std::vector<std::string>& arguments) { return block_of(arguments, "advice"); }

// More stitches than wanted: stitches too small, a larger hook (common practice; one published tutorial has
// it backwards).
TEST(Hook, TheDirectionIsRight) {
    const json larger = advice_of({"hook", "--have", "15x17", "--want", "13x16", "--hook", "5.5mm"});
    EXPECT_EQ(larger["verdict"], "larger");
    EXPECT_GT(larger["try_hook_mm"].get<double>(), 5.5);
    EXPECT_LT(larger["if_unchanged"]["width_mm"]["value"].get<double>(), 100.0);
    const json smaller = advice_of({"hook", "--have", "11x15", "--want", "13x16", "--hook", "5.5mm"});
    EXPECT_EQ(smaller["verdict"], "smaller");
    EXPECT_LT(smaller["try_hook_mm"].get<double>(), 5.5);
    EXPECT_EQ(advice_of({"hook", "--have", "13x16", "--want", "13x16", "--hook", "5.5mm"})["verdict"],
              "keep");
    EXPECT_EQ(advice_of({"hook", "--have", "13+-3", "--want", "13", "--hook", "5.5mm"})["verdict"], "unsure");
}

TEST(Hook, TheDocumentHasTheBlockOfTheContract) {
    const json document = run({"hook", "--have", "12x15", "--want", "13x16", "--hook", "5.5mm", "--hooks",
                               "4,4.5,5,5.5", "--piece", "56x22cm", "--json", "--why"})
                              .json();
    EXPECT_EQ(document["schema"], "ridgetally.report/1");
    EXPECT_EQ(document["command"], "hook");
    const json& advice = document["advice"];
    EXPECT_EQ(advice["verdict"], "smaller");
    EXPECT_EQ(advice["try_hook_mm"], 5.0);
    const double chance = advice["chance_within_tolerance"].get<double>();
    EXPECT_GT(chance, 0.0);
    EXPECT_LT(chance, 1.0);
    EXPECT_NEAR(advice["if_unchanged"]["width_mm"]["value"].get<double>(), 560.0 * 13 / 12, 0.01);
    EXPECT_NEAR(advice["if_unchanged"]["height_mm"]["value"].get<double>(), 220.0 * 16 / 15, 0.01);
    EXPECT_EQ(advice["rows"]["verdict"], "shorter");
    for (const auto& reason : advice["reasons"])
        EXPECT_TRUE(reason.contains("code") && reason.contains("message"));
    for (const auto& row : advice["why"]) {
        for (const char* key : {"name", "value", "formula", "inputs", "source"})
            EXPECT_TRUE(row.contains(key)) << row;
    }
}

TEST(Hook, TheSameQuestionGivesTheSameBytes) {
    const std::vector<std::string> question = {"hook",  "--have", "12x15", "--want",
                                               "13x16", "--hook", "5.5mm", "--json"};
    EXPECT_EQ(run(question).out, run(question).out);
}

TEST(Hook, EveryNumberCanBeTraced) {
    for (const auto& arguments :
         {std::vector<std::string>{"hook", "--have", "12x15", "--want", "13x16", "--hook", "5.5mm"},
          {"hook", "--have", "14.7+-0.3x17.2+-0.4", "--want", "13x16", "--per", "4in", "--hook", "US J-10",
           "--piece", "22 1/2 in x 9 in", "--units", "in", "--tolerance", "1/2 in"},
          {"hook", "--have", "13", "--want", "13.4"},
          {"hook", "--have", "16x18", "--want", "13x16", "--hook", "5mm", "--hooks", "5,12"}}) {
        EXPECT_EQ(untraceable_numbers_of(arguments), std::vector<std::string>{})
            << testing::PrintToString(arguments);
    }
}

// 14 over 4 in are 13.78 over 10 cm: a gauge without a span has that of the other, told spans are kept apart.
TEST(Hook, SpansAreNotMixed) {
    for (const auto& [have, want] : {std::pair<std::string, std::string>{"14x16/4in", "14x16"},
                                     {"14x16", "14x16/4in"},
                                     {"14x16/4in", "13.78x15.75/10cm"}}) {
        const json advice = advice_of({"hook", "--have", have, "--want", want, "--hook", "5.5mm"});
        EXPECT_NEAR(advice["stitches"]["size_error"]["value"].get<double>(), 0.0, 1e-3)
            << have << " " << want;
    }
    EXPECT_NEAR(
        advice_of({"hook", "--have", "14/4in", "--want", "14/10cm"})["stitches"]["size_error"]["value"]
            .get<double>(),
        0.016, 1e-6);
}

TEST(Hook, AKnitGaugeIsRefused) {
    const Finished called = run({"hook", "--have", "13x15", "--want", "18x24 knit"});
    EXPECT_EQ(called.status, 2);
    EXPECT_EQ(called.out, "");
    EXPECT_NE(called.err.find("try: "), std::string::npos);
    const json refusal =
        run({"hook", "--have", "13x15", "--want", "18x24", "--per", "4in", "--yarn-weight", "4", "--json"})
            .json();
    EXPECT_EQ(refusal["refusal"]["code"], "knit-gauge");
    EXPECT_FALSE(refusal.contains("photo"));
}

TEST(Hook, MarksThatChartsDisagreeOnAreToldOnStandardError) {
    const Finished marked = run({"hook", "--have", "12x15", "--want", "13x16", "--hook", "US K-10.5"});
    EXPECT_EQ(marked.status, 0);
    EXPECT_NE(marked.err.find("check the mm"), std::string::npos);
    for (const char* hook : {"7", "US P", "nothing"}) {
        const Finished wrong = run({"hook", "--have", "12x15", "--want", "13x16", "--hook", hook});
        EXPECT_EQ(wrong.status, EX_USAGE) << hook;
        EXPECT_EQ(wrong.out, "");
    }
}

using HookSettings = WithFolder;

TEST_F(HookSettings, TheMakersHooksComeFromTheSettings) {
    ASSERT_EQ(setenv("RIDGETALLY_SETTINGS", path("settings.json").c_str(), 1), 0);
    const std::vector<std::string> question = {"hook", "--have", "14.2+-.1", "--want",
                                               "13",   "--hook", "5.5mm"};
    EXPECT_EQ(advice_of(question)["try_hook_mm"], 6.5);  // no file: sizes that are widely sold
    write("settings.json", R"({"hooks": [5.5, 6, 7]})");
    EXPECT_EQ(advice_of(question)["try_hook_mm"], 7.0);
    write("settings.json", R"({"hooks": "5.5, 6mm"})");
    EXPECT_EQ(advice_of(question)["try_hook_mm"], 6.0);
    auto told = question;
    told.insert(told.end(), {"--hooks", "6.5"});
    EXPECT_EQ(advice_of(told)["try_hook_mm"], 6.5);
    for (const char* bad : {"{", "[]", R"({"hoks": "5"})", R"({"hooks": {}})"}) {
        write("settings.json", bad);
        EXPECT_EQ(run(question).status, EX_DATAERR) << bad;
    }
    ASSERT_EQ(unsetenv("RIDGETALLY_SETTINGS"), 0);
}

class HookWrongUse : public testing::TestWithParam<std::vector<std::string>> {};

TEST_P(HookWrongUse, IsToldInOneLine) {
    const Finished wrong = run(GetParam());
    EXPECT_EQ(wrong.status, EX_USAGE);
    EXPECT_EQ(wrong.out, "");
    EXPECT_EQ(lines_of(wrong.err).size(), 1U) << wrong.err;
}

INSTANTIATE_TEST_SUITE_P(
    Hook, HookWrongUse,
    testing::Values(std::vector<std::string>{"hook"}, std::vector<std::string>{"hook", "--have", "13"},
                    std::vector<std::string>{"hook", "--want", "13"},
                    std::vector<std::string>{"hook", "--have", "13", "--want", "x"},
                    std::vector<std::string>{"hook", "--have", "13", "--want", "13", "--per", "5in"},
                    std::vector<std::string>{"hook", "--have", "13", "--want", "13", "--tolerance", "3"},
                    std::vector<std::string>{"hook", "--have", "13", "--want", "13", "--tolerance", "-3%"},
                    std::vector<std::string>{"hook", "--have", "13", "--want", "13", "--piece", "large"},
                    std::vector<std::string>{"hook", "--have", "13", "--want", "13", "--yarn-weight", "8"},
                    std::vector<std::string>{"swatch", "--hook", "5mm", "a.jpg"},
                    std::vector<std::string>{"hook", "--have", "18x24 knit", "--want", "13x16"},
                    std::vector<std::string>{"hat", "--head", "56cm", "--gauge", "18x24 knit"},
                    std::vector<std::string>{"swatch", "--state", "washed", "a.jpg"},
                    std::vector<std::string>{"swatch", "--yarn", "Moss", "a.jpg"},
                    std::vector<std::string>{"crown", "--hook", "5mm", "a.jpg"}));

// With a photo: the block stands in the swatch's document and text.
TEST(Hook, ASwatchIsJudgedAgainstATarget) {
    const std::vector<std::string> question = {
        "swatch", "--stitch", "sc",     "--worked", "flat",
        "--want", "13x15",    "--hook", "4.5mm",    sample("brimful-moss.jpg")};
    const Finished text = run(question);
    EXPECT_EQ(text.status, 0) << text.err;
    EXPECT_NE(text.out.find("larger than 4.5 mm"), std::string::npos) << text.out;
    auto as_json = question;
    as_json.emplace_back("--json");
    const json document = run(as_json).json();
    EXPECT_EQ(document["advice"]["verdict"], "larger");
    EXPECT_EQ(document["advice"]["stitches"]["yours_per_10cm"], document["swatch"]["stitches_per_10cm"]);
    EXPECT_FALSE(run({"swatch", "--stitch", "sc", "--worked", "flat", sample("brimful-moss.jpg"), "--json"})
                     .json()
                     .contains("advice"));
}

}  // namespace
}  // namespace ridgetally::blackbox
