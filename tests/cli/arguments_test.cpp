#include <gtest/gtest.h>
#include <sysexits.h>

#include <regex>

#include "cli/run_program.h"

namespace ridgetally::blackbox {
namespace {

TEST(Help, ShowsCommandsAndExamples) {
    const Finished help = run({"--help"});
    EXPECT_EQ(help.status, 0);
    EXPECT_NE(help.out.find("swatch"), std::string::npos);
    EXPECT_NE(help.out.find("scale"), std::string::npos);
    EXPECT_NE(help.out.find("Examples:"), std::string::npos);
    EXPECT_EQ(help.err, "");
}

TEST(Help, OfEachCommandHasEveryOptionAndExamples) {
    const Finished swatch = run({"swatch", "--help"});
    EXPECT_EQ(swatch.status, 0);
    for (const char* option :
         {"--json", "--annotated", "--trace", "--stitch", "--worked", "--ruler", "--scale", "--reference",
          "--area", "--rows", "--repeat", "--thickness", "--ruler-correction", "--units", "--terms",
          "--batch", "--explain", "Examples:", "Exit status:"}) {
        EXPECT_NE(swatch.out.find(option), std::string::npos) << option;
    }
    const Finished scale = run({"scale", "--help"});
    EXPECT_EQ(scale.status, 0);
    EXPECT_NE(scale.out.find("Examples:"), std::string::npos);
}

TEST(Version, IsOneLine) {
    const Finished version = run({"--version"});
    EXPECT_EQ(version.status, 0);
    EXPECT_TRUE(std::regex_match(version.out, std::regex(R"(ridgetally \d+\.\d+\.\d+\n)"))) << version.out;
}

/// Each of these is wrong use: status 64, nothing on standard output, one line on standard error.
class WrongUse : public testing::TestWithParam<std::vector<std::string>> {};

TEST_P(WrongUse, IsToldInOneLine) {
    const Finished wrong = run(GetParam());
    EXPECT_EQ(wrong.status, EX_USAGE);
    EXPECT_EQ(wrong.out, "");
    EXPECT_EQ(lines_of(wrong.err).size(), 1U) << wrong.err;
    EXPECT_EQ(wrong.err.rfind("ridgetally: ", 0), 0U) << wrong.err;
}

INSTANTIATE_TEST_SUITE_P(
    Program, WrongUse,
    testing::Values(std::vector<std::string>{}, std::vector<std::string>{"crotchet"},
                    std::vector<std::string>{"swatch"}, std::vector<std::string>{"scale"},
                    std::vector<std::string>{"swatch", "--frobnicate", "a.jpg"},
                    std::vector<std::string>{"swatch", "--stitch", "htr", "a.jpg"},
                    std::vector<std::string>{"swatch", "--stitch", "--json", "a.jpg"},
                    std::vector<std::string>{"swatch", "a.jpg", "--rows"},
                    std::vector<std::string>{"swatch", "--rows", "north", "a.jpg"},
                    std::vector<std::string>{"swatch", "--scale", "1,2,3", "a.jpg"},
                    std::vector<std::string>{"swatch", "--scale", "0,0,9,9,1", "--ruler", "mm", "a.jpg"},
                    std::vector<std::string>{"swatch", "--area", "1,2,3,4", "a.jpg"},
                    std::vector<std::string>{"swatch", "--repeat", "0x0", "a.jpg"},
                    std::vector<std::string>{"swatch", "--thickness", "-3mm", "a.jpg"},
                    std::vector<std::string>{"swatch", "--ruler-correction", "7", "a.jpg"},
                    std::vector<std::string>{"swatch", "--units", "ells", "a.jpg"},
                    std::vector<std::string>{"swatch", "--jobs", "2", "a.jpg"},
                    std::vector<std::string>{"swatch", "--batch", "--jobs", "0", "a.jpg"},
                    std::vector<std::string>{"swatch", "--annotated", "picture.gif", "a.jpg"},
                    std::vector<std::string>{"scale", "a.jpg", "b.jpg"},
                    std::vector<std::string>{"scale", "--rows", "3", "a.jpg"}));

TEST(Arguments, AnUnknownReferenceIsWrongUse) {
    EXPECT_EQ(run({"swatch", "--reference", "doormat", sample("brimful-moss.jpg")}).status, EX_USAGE);
}

// Options and photo in any order, numbers that begin with a minus, the forms --x=y and --: what is tried here
// fails only because the file is not there.
TEST(Arguments, MayStandInAnyOrder) {
    const std::vector<std::vector<std::string>> good = {
        {"swatch", "none.jpg", "--rows", "-10", "--json"},
        {"swatch", "--rows=-10", "--stitch", "sc", "--worked", "flat", "--json", "none.jpg"},
        {"swatch", "--scale", "0,0,1000,0,6 1/4 in", "--area", "-5,0,9,0,9,9", "none.jpg", "--json"},
        {"swatch", "--ruler", "inch", "none.jpg", "--thickness", "3mm", "--repeat", "4x2"},
        {"swatch", "--json", "--", "--none.jpg"},
        {"swatch", "scale"},
        {"scale", "swatch"},
        {"scale", "--reference", "id1-card", "none.jpg"},
    };
    for (const auto& arguments : good) {
        const Finished run_of = run(arguments);
        EXPECT_EQ(run_of.status, EX_NOINPUT) << testing::PrintToString(arguments) << run_of.err;
    }
}

}  // namespace
}  // namespace ridgetally::blackbox
