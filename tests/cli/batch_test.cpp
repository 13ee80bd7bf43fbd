#include <gtest/gtest.h>

#include "cli/run_program.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;
using BatchOfFiles = WithFolder;

const std::vector<std::string> batch = {"swatch", "--batch", "--stitch", "sc", "--worked", "flat"};

std::vector<std::string> over(const std::vector<std::string>& photos) {
    std::vector<std::string> arguments = batch;
    arguments.insert(arguments.end(), photos.begin(), photos.end());
    return arguments;
}

TEST_F(BatchOfFiles, GoesOnPastFilesItCannotReadAndKeepsTheOrder) {
    write("letter.jpg", "no photo");
    const Finished finished = run(over({path("missing.jpg"), sample("brimful-moss.jpg"), path("letter.jpg"),
                                        sample("forgot-the-ruler.jpg"), sample("brimful-moss.jpg")}));
    const auto lines = lines_of(finished.out);
    ASSERT_EQ(lines.size(), 5U) << finished.out << finished.err;
    std::vector<json> documents;
    for (const auto& line : lines) documents.push_back(json::parse(line, nullptr, false));
    EXPECT_EQ(documents[0]["error"]["status"], 66);
    EXPECT_EQ(documents[0]["photo"]["file"], path("missing.jpg"));
    EXPECT_TRUE(documents[1].contains("swatch")) << lines[1];
    EXPECT_EQ(documents[2]["error"]["status"], 65);
    EXPECT_TRUE(documents[3].contains("refusal")) << lines[3];
    EXPECT_EQ(documents[4], documents[1]);
    // The worst of all: a file that was not there.
    EXPECT_EQ(finished.status, 66);
    // No terminal, no progress bar.
    EXPECT_EQ(finished.err, "");
}

TEST_F(BatchOfFiles, StatusTellsWhetherAllWereMeasured) {
    EXPECT_EQ(run(over({sample("brimful-moss.jpg")})).status, 0);
    EXPECT_EQ(run(over({sample("brimful-moss.jpg"), sample("forgot-the-ruler.jpg")})).status, 2);
}

TEST_F(BatchOfFiles, GivesTheSameBytesWithOneJobAndWithFour) {
    const std::vector<std::string> photos = {sample("brimful-moss.jpg"), sample("forgot-the-ruler.jpg"),
                                             sample("brimful-moss.jpg")};
    auto one = over(photos);
    one.insert(one.end(), {"--jobs", "1"});
    auto four = over(photos);
    four.insert(four.end(), {"--jobs", "4"});
    EXPECT_EQ(run(one).out, run(four).out);
}

TEST_F(BatchOfFiles, WritesOnePictureForEveryPhotoMeasured) {
    auto arguments = over({sample("brimful-moss.jpg"), sample("forgot-the-ruler.jpg")});
    arguments.insert(arguments.end(), {"--annotated", path("pictures")});
    const Finished finished = run(arguments);
    const json first = json::parse(lines_of(finished.out).at(0), nullptr, false);
    EXPECT_EQ(first["annotated"], path("pictures") + "/0001-brimful-moss.jpg");
    EXPECT_TRUE(std::filesystem::exists(path("pictures/0001-brimful-moss.jpg")));
    EXPECT_FALSE(std::filesystem::exists(path("pictures/0002-forgot-the-ruler.jpg")));
}

}  // namespace
}  // namespace ridgetally::blackbox
