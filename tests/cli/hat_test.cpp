#include <gtest/gtest.h>
#include <sysexits.h>

#include "cli/run_program.h"
#include "cli/traceable.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;

std::vector<int> counts_of(const json& hat) {
    std::vector<int> counts;
    for (const auto& round : hat["crown"]) counts.push_back(round["stitches"].get<int>());
    return counts;
}

// A UK magazine's scheme: 6, 12, 18, 24, 30, 36; with the increases staggered, "2 plain, increase, 2 plain".
TEST(Hat, FollowsAPublishedScheme) {
    const json document = run({"hat", "--head", "26cm", "--ease", "0", "--gauge", "14x16", "--stitch", "sc",
                               "--increase", "6", "--terms", "uk", "--json"})
                              .json();
    const json& hat = document["hats"][0];
    EXPECT_EQ(document["command"], "hat");
    EXPECT_EQ(counts_of(hat), (std::vector<int>{6, 12, 18, 24, 30, 36}));
    EXPECT_EQ(hat["crown"][0]["words"], "6 dc in a start ring");
    EXPECT_EQ(hat["crown"][1]["words"], "2 dc in each stitch");
    EXPECT_EQ(hat["crown"][5]["words"], "*2 dc, inc, 2 dc* 6 times");
    EXPECT_EQ(hat["crown"][4]["words"], "*3 dc, inc* 6 times");
}

// Common practice, no source: super-bulky yarn, 44 or 45 stitches around an adult crown of about 16 cm, some
// 22 cm high.
TEST(Hat, ASuperBulkyBeanieAndBackAgain) {
    const json hat =
        run({"hat", "--head", "53cm", "--gauge", "9x9/4in", "--stitch", "sc", "--json"}).json()["hats"][0];
    EXPECT_GE(hat["stitches"].get<int>(), 44);
    EXPECT_LE(hat["stitches"].get<int>(), 45);
    EXPECT_NEAR(hat["crown_diameter_mm"].get<double>(), 160.0, 5.0);
    EXPECT_NEAR(hat["height_mm"]["value"].get<double>(), 220.0, 15.0);
    const json head =
        run({"hat", "--stitches", "45", "--gauge", "9x9/4in", "--stitch", "sc", "--json"}).json()["head"];
    EXPECT_NEAR(head["head_mm"].get<double>(), 530.0, 10.0);
}

TEST(Hat, EveryNumberCanBeTraced) {
    for (const auto& arguments :
         {std::vector<std::string>{"hat", "--head", "56cm", "--gauge", "14x16", "--stitch", "sc", "--brim",
                                   "4cm", "--turn-up", "4cm"},
          {"hat", "--age", "9months", "--gauge", "13x10/4in", "--stitch", "hdc", "--units", "in"},
          {"hat", "--head", "48cm", "--head", "56cm", "--gauge", "13x8", "--stitch", "dc"},
          {"hat", "--size", "Toddler", "--gauge", "14", "--stitch", "sc", "--multiple", "4", "--ease",
           "-1in"},
          {"hat", "--stitches", "44", "--gauge", "9x9/4in", "--stitch", "sc"}}) {
        EXPECT_EQ(untraceable_numbers_of(arguments), std::vector<std::string>{})
            << testing::PrintToString(arguments);
    }
}

TEST(Hat, CautionsStandWithChildrensHatsOnly) {
    const Finished baby = run({"hat", "--age", "6months", "--gauge", "14x16", "--stitch", "sc"});
    EXPECT_NE(baby.out.find("sleeping baby"), std::string::npos);
    EXPECT_NE(baby.out.find("rules of your country"), std::string::npos);
    EXPECT_EQ(run({"hat", "--head", "57cm", "--gauge", "14x16", "--stitch", "sc"}).out.find("baby"),
              std::string::npos);
    EXPECT_EQ(run({"hat", "--head", "57cm", "--gauge", "14x16", "--stitch", "sc", "--json"})
                  .json()["cautions"]
                  .size(),
              0U);
    EXPECT_GE(run({"hat", "--head", "40cm", "--gauge", "14x16", "--stitch", "sc", "--json"})
                  .json()["cautions"]
                  .size(),
              4U);
}

using HatFiles = WithFolder;

TEST_F(HatFiles, AMeasuredGaugeIsReadFromItsDocument) {
    write("gauge.json", R"({"schema": "ridgetally.report/1", "command": "swatch", "stitch": {"family": "sc"},
        "swatch": {"stitches_per_10cm": {"value": 14, "std": 0.1}, "rows_per_10cm": {"value": 16, "std": 0.1}}})");
    const json read = run({"hat", "--head", "56cm", "--measured", path("gauge.json"), "--json"}).json();
    const json told = run({"hat", "--head", "56cm", "--gauge", "14x16", "--stitch", "sc", "--json"}).json();
    EXPECT_EQ(counts_of(read["hats"][0]), counts_of(told["hats"][0]));
    EXPECT_EQ(run({"hat", "--head", "56cm", "--measured", path("none.json")}).status, EX_NOINPUT);
    for (const char* bad : {"", "{", "[1]", "{}", R"({"swatch": 3})",
                            R"({"swatch": {"stitches_per_10cm": {"value": -1, "std": 0}}})"}) {
        write("bad.json", bad);
        EXPECT_EQ(run({"hat", "--head", "56cm", "--measured", path("bad.json")}).status, EX_DATAERR) << bad;
    }
}

TEST(Hat, WhatMakesNoHatIsRefusedWithAHint) {
    for (const auto& arguments : {std::vector<std::string>{"hat", "--head", "56cm", "--gauge", "14"},
                                  {"hat", "--head", "56cm", "--gauge", "14x16", "--height", "3cm"},
                                  {"hat", "--age", "7years", "--gauge", "14x16"},
                                  {"hat", "--size", "Giant", "--gauge", "14x16"},
                                  {"hat", "--head", "56cm", "--gauge", "18x24", "--stitch", "stockinette"}}) {
        const Finished refused = run(arguments);
        EXPECT_EQ(refused.status, 2) << testing::PrintToString(arguments);
        EXPECT_EQ(refused.out, "");
        EXPECT_NE(refused.err.find("try: "), std::string::npos);
    }
}

TEST(Hat, WrongUseIsTold) {
    for (const auto& arguments : {std::vector<std::string>{"hat"},
                                  {"hat", "--gauge", "14x16"},
                                  {"hat", "--head", "56cm"},
                                  {"hat", "--head", "56", "--gauge", "14x16"},
                                  {"hat", "--head", "48,52cm", "--gauge", "14x16"},
                                  {"hat", "--head", "56cm", "--stitches", "44", "--gauge", "14x16"},
                                  {"hat", "--age", "9", "--gauge", "14x16"},
                                  {"hat", "--head", "56cm", "--gauge", "14x16", "--ease", "-5"},
                                  {"hat", "--head", "56cm", "--gauge", "14x16", "--multiple", "0"}}) {
        const Finished wrong = run(arguments);
        EXPECT_EQ(wrong.status, EX_USAGE) << testing::PrintToString(arguments) << wrong.err;
        EXPECT_EQ(wrong.out, "");
    }
}

}  // namespace
}  // namespace ridgetally::blackbox
