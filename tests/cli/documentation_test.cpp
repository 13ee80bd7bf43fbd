#include <gtest/gtest.h>

#include <regex>
#include <set>

#include "cli/run_program.h"

namespace ridgetally::blackbox {
namespace {

namespace fs = std::filesystem;

std::set<std::string> codes_matching(const std::string& pattern) {
    std::set<std::string> codes;
    const std::regex regex(pattern);
    for (const auto& entry : fs::recursive_directory_iterator(std::string(RIDGETALLY_SOURCE_DIR) + "/src")) {
        if (entry.path().extension() != ".cpp") continue;
        const std::string text = bytes_of(entry.path().string());
        for (auto match = std::sregex_iterator(text.begin(), text.end(), regex);
             match != std::sregex_iterator(); ++match) {
            codes.insert((*match)[1]);
        }
    }
    return codes;
}

void expect_in_readme(const std::set<std::string>& codes) {
    const std::string readme = bytes_of(std::string(RIDGETALLY_SOURCE_DIR) + "/README.md");
    for (const auto& code : codes) {
        EXPECT_NE(readme.find("`" + code + "`"), std::string::npos)
            << code << " is not explained in README.md";
    }
}

TEST(Documentation, EveryRefusalCodeStandsInTheReadme) {
    auto codes = codes_matching(
        R"rx(\{\s*"(?:advice|catalog|disc|fabric|gauge|lattice|photo|piece|pipeline|recogniser|rectify|scale|settings|write)",\s*"([a-z0-9]+(?:-[a-z0-9]+)*)",\s*["a-z])rx");
    codes.merge(codes_matching(R"rx(photo_refusal\(\s*"([a-z0-9-]+)")rx"));
    codes.merge(codes_matching(R"rx(\{\s*record_stage,\s*"([a-z0-9]+(?:-[a-z0-9]+)*)",)rx"));
    EXPECT_GE(codes.size(), 25U);
    EXPECT_TRUE(codes.contains("no-ruler"));
    expect_in_readme(codes);
}

TEST(Documentation, EveryReasonOfTheAdviceStandsInTheReadme) {
    const auto codes = codes_matching(R"rx([\{(]\{?"([a-z]+(?:-[a-z]+)+)",\s+"[a-z])rx");
    EXPECT_GE(codes.size(), 10U);
    EXPECT_TRUE(codes.contains("stitches-too-small"));
    expect_in_readme(codes);
}

TEST(Documentation, EveryWarningCodeStandsInTheReadme) {
    auto codes = codes_matching(R"rx(warnings\.push_back\(\s*\{\s*"([a-z0-9-]+)")rx");
    codes.merge(codes_matching(R"rx(left_out\.push_back\(\s*\{\s*"([a-z0-9-]+)")rx"));
    EXPECT_GE(codes.size(), 5U);
    EXPECT_TRUE(codes.contains("photos-disagree"));
    expect_in_readme(codes);
}

}  // namespace
}  // namespace ridgetally::blackbox
