#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "image/photo.h"
#include "synthetic/sample_scenes.h"

namespace ridgetally::synthetic {
namespace {

std::string path_of(const Sample& sample, const std::string& ending) {
    return std::string(RIDGETALLY_SOURCE_DIR) + "/samples/" + sample.name + ending;
}

TEST(Samples, TruthFilesAreThoseOfTheScenes) {
    for (const Sample& sample : sample_scenes()) {
        std::ifstream file(path_of(sample, ".truth.json"));
        ASSERT_TRUE(file) << sample.name;
        const auto stored = nlohmann::json::parse(file);
        const auto made = sample_truth(sample, truth_of(sample.shot.scene));
        EXPECT_EQ(stored.at("yarn"), made.at("yarn"));
        ASSERT_EQ(stored.at("cases").size(), made.at("cases").size()) << sample.name;
        EXPECT_EQ(stored.at("cases").front().at("stitch"), made.at("cases").front().at("stitch"))
            << sample.name;
        const auto &truth = stored.at("cases").front().at("truth"),
                   &again = made.at("cases").front().at("truth");
        ASSERT_EQ(truth.size(), again.size()) << sample.name;
        for (const auto& [key, value] : again.items())
            EXPECT_NEAR(truth.at(key).get<double>(), value.get<double>(), 1e-6) << sample.name << ' ' << key;
    }
}

TEST(Samples, PhotosAreSmallAndOfTheRightSize) {
    for (const Sample& sample : sample_scenes()) {
        const std::string path = path_of(sample, ".jpg");
        ASSERT_LE(std::filesystem::file_size(path), 350U * 1000U) << sample.name;
        const auto photo = read_photo(path);
        ASSERT_TRUE(photo.ok()) << sample.name;
        EXPECT_EQ(photo->grey.size(),
                  cv::Size(sample.shot.scene.camera.width_px, sample.shot.scene.camera.height_px));
        EXPECT_EQ(photo->focal_length_35mm, sample.shot.jpeg.focal35_mm) << sample.name;
    }
}

TEST(Samples, WholeSwatchAndAtLeastTenCentimetresOfRulerShow) {
    for (const Sample& sample : sample_scenes()) {
        const Truth truth = truth_of(sample.shot.scene);
        EXPECT_GT(truth.fabric_in_frame.front(), 0.999) << sample.name;
        if (sample.shot.kind != "swatch") continue;
        ASSERT_FALSE(truth.segments.empty()) << sample.name;
        EXPECT_GE(truth.segments.front().mm, 100.0) << sample.name;
    }
}

}  // namespace
}  // namespace ridgetally::synthetic
