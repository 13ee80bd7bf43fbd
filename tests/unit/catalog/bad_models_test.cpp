#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "catalog/catalog.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

/// A copy of the real folder to spoil.
class BadModels : public ::testing::Test {
  protected:
    void SetUp() override {
        folder_ = fs::path(::testing::TempDir()) /
                  ("models_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
        fs::remove_all(folder_);
        fs::copy(RIDGETALLY_SOURCE_DIR "/models", folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    template <typename Change>
    std::string fault_after(const std::string& file, const Change& change) {
        nlohmann::json document;
        std::ifstream(folder_ / file) >> document;
        change(document);
        std::ofstream(folder_ / file) << document;
        const auto outcome = load_catalog(folder_);
        if (outcome) return "no fault";
        EXPECT_EQ(outcome.refusal().code, "bad-models");
        return outcome.refusal().message;
    }

    fs::path folder_;
};

bool holds(const std::string& text, std::initializer_list<const char*> parts) {
    for (const char* part : parts)
        if (text.find(part) == std::string::npos) return false;
    return true;
}

TEST_F(BadModels, TheCopyItselfIsGood) {
    EXPECT_EQ(fault_after("stitches.json", [](auto&) {}), "no fault");
}

TEST_F(BadModels, MissingFieldIsNamedWithFileAndRow) {
    const auto fault = fault_after("references.json", [](auto& d) { d["flat_objects"][1].erase("source"); });
    EXPECT_PRED2(holds, fault,
                 (std::initializer_list<const char*>{"references.json", "row 2", "a4", "source"}));
}

TEST_F(BadModels, EveryKindOfRulerMustBeThere) {
    const auto fault = fault_after("references.json", [](auto& d) { d["ruler_kinds"].erase(2); });
    EXPECT_PRED2(holds, fault,
                 (std::initializer_list<const char*>{"references.json", "ruler_kinds", "steel"}));
}

TEST_F(BadModels, NumberOutOfRangeIsNamed) {
    const auto fault =
        fault_after("stitches.json", [](auto& d) { d["stitches"][0]["height_to_width"]["mean"] = 60; });
    EXPECT_PRED2(
        holds, fault,
        (std::initializer_list<const char*>{"stitches.json", "row 1", "(sc)", "height_to_width", "mean"}));
}

TEST_F(BadModels, TextForANumberIsAFault) {
    const auto fault =
        fault_after("references.json", [](auto& d) { d["coins"][0]["diameter_mm"]["nominal"] = "19"; });
    EXPECT_PRED2(holds, fault,
                 (std::initializer_list<const char*>{"references.json", "usd-0.01", "nominal"}));
}

TEST_F(BadModels, UnknownFieldIsAFault) {
    const auto fault = fault_after("stitches.json", [](auto& d) { d["stitches"][2]["hight"] = 1; });
    EXPECT_PRED2(holds, fault, (std::initializer_list<const char*>{"row 3", "hight", "not known"}));
}

TEST_F(BadModels, DoubleAndMissingFamiliesAreFaults) {
    EXPECT_PRED2(holds, fault_after("stitches.json", [](auto& d) { d["stitches"].erase(5); }),
                 (std::initializer_list<const char*>{"no row for dc"}));
    EXPECT_PRED2(holds,
                 fault_after("stitches.json", [](auto& d) { d["stitches"].push_back(d["stitches"][0]); }),
                 (std::initializer_list<const char*>{"twice"}));
}

TEST_F(BadModels, LimitsMustHoldTheNominalValue) {
    const auto fault =
        fault_after("references.json", [](auto& d) { d["coins"][3]["diameter_mm"]["low"] = 30; });
    EXPECT_PRED2(holds, fault, (std::initializer_list<const char*>{"usd-0.25", "low"}));
}

// Each fault is in a row read before the last one, so that it is the one told.
TEST_F(BadModels, FactsOfHooksAndHatsAreChecked) {
    EXPECT_PRED2(holds, fault_after("heads.json", [](auto& d) { d["cautions"] = nlohmann::json::array(); }),
                 (std::initializer_list<const char*>{"heads.json", "cautions"}));
    EXPECT_PRED2(holds, fault_after("heads.json", [](auto& d) { d["ease"].erase("source"); }),
                 (std::initializer_list<const char*>{"heads.json", "ease", "source"}));
    EXPECT_PRED2(holds, fault_after("yarn-weights.json", [](auto& d) { d["yarn_margin"]["usual"] = 7; }),
                 (std::initializer_list<const char*>{"yarn-weights.json", "yarn_margin", "usual"}));
    EXPECT_PRED2(
        holds, fault_after("hooks.json", [](auto& d) { d["published_responses"][0]["counts"].push_back(9); }),
        (std::initializer_list<const char*>{"hooks.json", "double crochet", "counts"}));
    EXPECT_PRED2(holds, fault_after("hooks.json", [](auto& d) { d["response"]["low"] = 2; }),
                 (std::initializer_list<const char*>{"hooks.json", "response", "usual"}));
}

TEST_F(BadModels, BrokenAndMissingFilesAreNamed) {
    std::ofstream(folder_ / "references.json") << "{";
    EXPECT_PRED2(holds, load_catalog(folder_).refusal().message,
                 (std::initializer_list<const char*>{"references.json", "no JSON"}));
    fs::remove(folder_ / "stitches.json");
    EXPECT_PRED2(holds, load_catalog(folder_).refusal().message,
                 (std::initializer_list<const char*>{"stitches.json", "cannot be read"}));
}

TEST_F(BadModels, WrongSchemaIsAFault) {
    EXPECT_PRED2(holds,
                 fault_after("stitches.json", [](auto& d) { d["schema"] = "ridgetally.models.stitches/9"; }),
                 (std::initializer_list<const char*>{"stitches.json", "schema"}));
}

TEST_F(BadModels, TheEnvironmentNamesTheFolder) {
    ASSERT_EQ(setenv("RIDGETALLY_MODELS", folder_.c_str(), 1), 0);
    EXPECT_EQ(models_folder(), folder_);
    ASSERT_EQ(unsetenv("RIDGETALLY_MODELS"), 0);
    EXPECT_TRUE(load_catalog(models_folder()).ok());
}

}  // namespace
}  // namespace ridgetally
