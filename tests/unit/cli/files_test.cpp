#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "cli/picture_file.h"
#include "cli/trace_folder.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

/// An empty folder of the running test, removed afterwards.
class Files : public testing::Test {
  protected:
    void SetUp() override {
        folder_ = fs::path(testing::TempDir()) /
                  ("ridgetally-files-" +
                   std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    [[nodiscard]] std::string path(const std::string& name) const { return (folder_ / name).string(); }
    [[nodiscard]] static std::string first_bytes(const std::string& file, std::size_t count) {
        std::ifstream in(file, std::ios::binary);
        std::string bytes(count, '\0');
        in.read(bytes.data(), static_cast<std::streamsize>(count));
        return bytes;
    }

    fs::path folder_;
};

// First bytes: PNG, ISO/IEC 15948 clause 5.2; JPEG, ITU-T T.81 annex B.1.1.3 (SOI, then a marker).
TEST_F(Files, TheEndingChoosesTheFormat) {
    const cv::Mat picture(8, 8, CV_8UC3, cv::Scalar(1, 2, 3));
    ASSERT_TRUE(write_picture(path("a.png"), picture).ok());
    ASSERT_TRUE(write_picture(path("b.JPG"), picture).ok());
    EXPECT_EQ(first_bytes(path("a.png"), 4), "\x89PNG");
    EXPECT_EQ(first_bytes(path("b.JPG"), 3), "\xFF\xD8\xFF");
    EXPECT_FALSE(is_picture_name("a.gif"));
    EXPECT_FALSE(is_picture_name("png"));
    EXPECT_THROW((void)write_picture(path("c"), picture), std::invalid_argument);
}

TEST_F(Files, WhereAPictureCannotBeWrittenIsSaid) {
    const auto written = write_picture(path("no/such/folder/a.png"), cv::Mat(8, 8, CV_8UC1, 0.0));
    ASSERT_FALSE(written.ok());
    EXPECT_EQ(written.refusal().code, "io");
}

TEST_F(Files, NamesOfManyPhotosAreUniqueAndSorted) {
    EXPECT_EQ(numbered_stem(0, "here/mat.jpg"), "0001-mat");
    EXPECT_NE(numbered_stem(0, "here/mat.jpg"), numbered_stem(1, "there/mat.jpg"));
    EXPECT_LT(numbered_stem(8, "b.jpg"), numbered_stem(9, "a.jpg"));
}

TEST_F(Files, ATraceHoldsPicturesInOrderAndNotes) {
    {
        TraceFolder trace(path("trace"));
        ASSERT_TRUE(trace.trace().wants_pictures());
        trace.trace().picture("mask", cv::Mat(4, 4, CV_8UC1, 255.0));
        cv::Mat map(4, 4, CV_32FC1, cv::Scalar(0.25));
        map.at<float>(0, 0) = -1.0F;
        trace.trace().picture("map", map);
        trace.trace().note("scale: first");
        EXPECT_EQ(trace.finish(), ExitStatus::ok);
    }
    EXPECT_TRUE(fs::exists(path("trace/01-mask.png")));
    EXPECT_TRUE(fs::exists(path("trace/02-map.png")));
    std::stringstream notes;
    notes << std::ifstream(path("trace/notes.txt")).rdbuf();
    EXPECT_EQ(notes.str(), "scale: first\n");
}

TEST_F(Files, NoFolderNoTrace) {
    TraceFolder trace(std::nullopt);
    EXPECT_FALSE(trace.trace().wants_pictures());
    EXPECT_EQ(trace.finish(), ExitStatus::ok);
}

TEST_F(Files, ATraceThatCannotBeWrittenIsTold) {
    std::ofstream(path("taken")) << "a file";
    TraceFolder trace(path("taken/trace"));
    EXPECT_FALSE(trace.trace().wants_pictures());
    EXPECT_EQ(trace.finish(), ExitStatus::io);
}

}  // namespace
}  // namespace ridgetally
