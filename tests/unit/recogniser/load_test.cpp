#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "recogniser/stitch_namer.h"
#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

namespace fs = std::filesystem;

class LoadRecogniser : public ::testing::Test {
  protected:
    void SetUp() override {
        const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
        folder_ = fs::path(::testing::TempDir()) / (std::string("recogniser-") + info->name());
        fs::remove_all(folder_);
        fs::copy(fs::path(RIDGETALLY_SOURCE_DIR) / "models/recogniser", folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }
    void expect_no_weights() const {
        const auto out = load_recogniser(folder_);
        ASSERT_FALSE(out);
        EXPECT_EQ(out.refusal().stage, "recogniser");
        EXPECT_EQ(out.refusal().code, "no-weights");
        EXPECT_FALSE(out.refusal().hint.empty());
    }
    fs::path folder_;
};

TEST_F(LoadRecogniser, WholeFolderLoads) { EXPECT_TRUE(load_recogniser(folder_)); }

TEST_F(LoadRecogniser, OneChangedByteIsNoticed) {
    std::fstream file(folder_ / "phase-fields.onnx", std::ios::in | std::ios::out | std::ios::binary);
    file.seekg(100000);
    const int byte = file.get();
    file.seekp(100000);
    file.put(static_cast<char>(byte ^ 1));
    file.close();
    expect_no_weights();
}

TEST_F(LoadRecogniser, ShortFileIsNoticed) {
    fs::resize_file(folder_ / "phase-fields.onnx", 1000);
    expect_no_weights();
}

TEST_F(LoadRecogniser, MissingWeights) {
    fs::remove(folder_ / "phase-fields.onnx");
    expect_no_weights();
}

TEST_F(LoadRecogniser, MissingScout) {
    fs::remove(folder_ / "scout.onnx");
    expect_no_weights();
}

TEST_F(LoadRecogniser, AManifestWithoutTheScout) {
    std::ifstream in(folder_ / "manifest.json");
    auto manifest = nlohmann::json::parse(in);
    manifest.erase("scout");
    std::ofstream(folder_ / "manifest.json") << manifest;
    expect_no_weights();
}

TEST_F(LoadRecogniser, MissingFolder) {
    fs::remove_all(folder_);
    expect_no_weights();
}

TEST_F(LoadRecogniser, OtherSchema) {
    std::ofstream(folder_ / "manifest.json")
        << R"({"schema": "something/9", "phase_fields": {"file": "phase-fields.onnx"}})";
    expect_no_weights();
}

TEST_F(LoadRecogniser, NoJson) {
    std::ofstream(folder_ / "manifest.json") << "weights";
    expect_no_weights();
}

TEST_F(LoadRecogniser, WrongTypesInTheManifest) {
    std::ofstream(folder_ / "manifest.json") << R"({"schema": "ridgetally.recogniser/2", "phase_fields": 3})";
    expect_no_weights();
}

TEST_F(LoadRecogniser, DamagedStitchNetworkLeavesThePhaseFields) {
    std::fstream file(folder_ / "stitch-families.onnx", std::ios::in | std::ios::out | std::ios::binary);
    file.seekg(5000);
    const int byte = file.get();
    file.seekp(5000);
    file.put(static_cast<char>(byte ^ 1));
    file.close();
    EXPECT_TRUE(load_recogniser(folder_));
    const auto namer = load_stitch_namer(folder_);
    ASSERT_FALSE(namer);
    EXPECT_EQ(namer.refusal().code, "no-weights");
}

TEST_F(LoadRecogniser, MissingStitchNetwork) {
    fs::remove(folder_ / "stitch-families.onnx");
    EXPECT_FALSE(load_stitch_namer(folder_));
}

}  // namespace
}  // namespace ridgetally::test
