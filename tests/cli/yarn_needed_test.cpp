#include <gtest/gtest.h>
#include <sysexits.h>

#include <cmath>

#include "cli/run_program.h"
#include "cli/traceable.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;

json need_of(const std::vector<std::string>& arguments) { return block_of(arguments, "yarn_needed"); }

// A published worked example: 4 g for 36 square inches, of a ball of 50 g and 87 yd; 60 x 60 in are 3600 / 36
// x 6.96 = 696 yd.
TEST(YarnNeededCommand, IsThatOfThePublishedExample) {
    const json need = need_of({"yarn-needed", "--swatch-mass", "4g", "--swatch-area", "36 sq in", "--area",
                               "60x60 in", "--ball", "50g/87yd", "--margin", "0%"});
    EXPECT_NEAR(need["length_with_margin_m"].get<double>(), 696 * 0.9144, 0.01);
    EXPECT_EQ(need["balls_to_have"], 8);
    EXPECT_NEAR(need["mass_g"]["value"].get<double>(), 400.0, 1e-6);
}

// The area of a planned hat is that of the hat command.
TEST(YarnNeededCommand, HatsAreThoseOfThePlan) {
    const json hat =
        run({"hat", "--head", "56cm", "--gauge", "14x16", "--stitch", "sc", "--turn-up", "5cm", "--json"})
            .json()["hats"][0];
    const json need = need_of({"yarn-needed", "--swatch-mass", "10.0g", "--swatch-area", "100cm2", "--head",
                               "56cm", "--turn-up", "5cm", "--count", "2", "--margin", "0%"});
    // Both figures are rounded to six digits: half a thousandth of 246 g, and 0.2 of half a hundredth of 1232
    // cm2.
    EXPECT_NEAR(need["mass_g"]["value"].get<double>(), 2 * 0.1 * hat["area_cm2"].get<double>(), 0.00151);
}

TEST(YarnNeededCommand, SaysWhetherTheStockIsEnough) {
    const std::vector<std::string> question = {"yarn-needed", "--used", "85.0g", "--count", "4", "--stock"};
    const auto enough = [&](const std::string& stock) {
        auto arguments = question;
        arguments.push_back(stock);
        return need_of(arguments)["enough"];
    };
    EXPECT_EQ(enough("400g"), "yes");
    EXPECT_EQ(enough("345g"), "barely");
    EXPECT_EQ(enough("250g"), "no");
}

using YarnNeededFiles = WithFolder;

TEST_F(YarnNeededFiles, TheAreaMayComeFromThePhoto) {
    const Finished measured =
        run({"swatch", "--stitch", "sc", "--worked", "flat", "--json", sample("brimful-moss.jpg")});
    ASSERT_EQ(measured.status, 0);
    write("gauge.json", measured.out);
    const json swatch = measured.json()["swatch"];
    const double area_cm2 =
        swatch["width_mm"]["value"].get<double>() * swatch["height_mm"]["value"].get<double>() / 100.0;
    const json need = need_of(
        {"yarn-needed", "--swatch-mass", "9.4g", "--measured", path("gauge.json"), "--area", "100cm2"});
    EXPECT_NEAR(need["mass_g"]["value"].get<double>(), 940.0 / area_cm2, 1e-3);
    write("cut.json", R"({"swatch": {"stitches_per_10cm": {"value": 14, "std": 0.1}}})");
    EXPECT_EQ(
        run({"yarn-needed", "--swatch-mass", "9.4g", "--measured", path("cut.json"), "--area", "100cm2"})
            .status,
        EX_USAGE);
}

// Weighed and photographed at once: the document says what the fabric takes, and is enough for the question.
TEST_F(YarnNeededFiles, MassAndAreaMayComeFromOneDocument) {
    const Finished measured = run({"swatch", "--stitch", "sc", "--worked", "flat", "--mass", "9.4g", "--json",
                                   sample("brimful-moss.jpg")});
    ASSERT_EQ(measured.status, 0);
    write("gauge.json", measured.out);
    const json document = measured.json();
    const json& use = document["yarn_use"];
    const json& swatch = document["swatch"];
    const double area_cm2 =
        swatch["width_mm"]["value"].get<double>() * swatch["height_mm"]["value"].get<double>() / 100.0;
    // All are rounded to six digits: half a thousandth of a millimetre of each side, about 13 cm long, and
    // half a thousandth of a square centimetre.
    EXPECT_NEAR(use["area_cm2"]["value"].get<double>(), area_cm2, 2 * 0.00005 * 13.5 + 0.0005);
    EXPECT_NEAR(use["mass_per_100cm2_g"]["value"].get<double>(), 940.0 / area_cm2, 1e-4);
    EXPECT_NEAR(use["mass_g"]["std"].get<double>(), 0.05 / std::sqrt(3.0), 1e-6);
    const json need = need_of({"yarn-needed", "--measured", path("gauge.json"), "--area", "100cm2"});
    EXPECT_NEAR(need["mass_g"]["value"].get<double>(), use["mass_per_100cm2_g"]["value"].get<double>(), 1e-4);
    const Finished text =
        run({"swatch", "--stitch", "sc", "--worked", "flat", "--mass", "9.4g", sample("brimful-moss.jpg")});
    EXPECT_NE(text.out.find("g for 100 cm2"), std::string::npos) << text.out;
    std::vector<std::string> explained = {"swatch",   "--stitch", "sc",
                                          "--worked", "flat",     "--mass",
                                          "9.4g",     "--why",    sample("brimful-moss.jpg")};
    const Finished why = run(explained);
    EXPECT_EQ(why.out.rfind(text.out, 0), 0U) << "--why must only add to the answer";
    const auto yarn_line = text.out.rfind("Yarn:");
    ASSERT_NE(yarn_line, std::string::npos);
    EXPECT_EQ(untraceable_numbers(text.out.substr(yarn_line + 5), why.out.substr(text.out.size())),
              std::vector<std::string>());
    explained.emplace_back("--json");
    const json rows = run(explained).json()["yarn_use"]["why"];
    ASSERT_EQ(rows.size(), 3U);
    const json& sides = rows[1]["inputs"];
    EXPECT_NEAR(rows[1]["value"].get<double>(),
                sides[0]["value"].get<double>() * sides[1]["value"].get<double>() / 100.0, 0.002);
    EXPECT_EQ(run({"swatch", "--why", sample("brimful-moss.jpg")}).status, EX_USAGE);
    EXPECT_EQ(run({"crown", "--why", sample("earflap-crown.jpg")}).status, EX_USAGE);
    write("unweighed.json", R"({"swatch": {"stitches_per_10cm": {"value": 14, "std": 0.1},
        "width_mm": {"value": 150, "std": 1}, "height_mm": {"value": 150, "std": 1}}})");
    EXPECT_EQ(run({"yarn-needed", "--measured", path("unweighed.json"), "--area", "100cm2"}).status,
              EX_USAGE);
    EXPECT_EQ(run({"swatch", "--mass", "9.4g", "--batch", sample("brimful-moss.jpg")}).status, EX_USAGE);
}

TEST(YarnNeededCommand, EveryNumberCanBeTraced) {
    for (const auto& arguments :
         {std::vector<std::string>{"yarn-needed", "--swatch-mass", "12.4g", "--swatch-area", "15x15cm",
                                   "--head", "48cm", "--head", "56cm", "--count", "3", "--ball", "100g/177m",
                                   "--stock", "4"},
          {"yarn-needed", "--swatch-mass", "4g", "--swatch-area", "36 sq in", "--area", "60x60 in", "--ball",
           "1.75oz/87yd", "--units", "in"},
          {"yarn-needed", "--used", "85g", "--count", "4", "--stock", "350g", "--margin", "5%"}}) {
        EXPECT_EQ(untraceable_numbers_of(arguments), std::vector<std::string>{})
            << testing::PrintToString(arguments);
    }
}

TEST(YarnNeededCommand, WrongUseIsTold) {
    for (const auto& arguments : {std::vector<std::string>{"yarn-needed"},
                                  {"yarn-needed", "--head", "56cm"},
                                  {"yarn-needed", "--swatch-mass", "4g", "--head", "56cm"},
                                  {"yarn-needed", "--used", "4 yd"},
                                  {"yarn-needed", "--used", "4g", "--ball", "50g/87"},
                                  {"yarn-needed", "--used", "4g", "--stock", "2"},
                                  {"yarn-needed", "--used", "4g", "--margin", "10"},
                                  {"yarn-needed", "--used", "4g", "--count", "0"}}) {
        const Finished wrong = run(arguments);
        EXPECT_EQ(wrong.status, EX_USAGE) << testing::PrintToString(arguments) << wrong.err;
        EXPECT_EQ(wrong.out, "");
    }
}

}  // namespace
}  // namespace ridgetally::blackbox
