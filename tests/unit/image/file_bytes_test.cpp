#include "image/file_bytes.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

std::vector<std::uint8_t> bytes_of(const std::string& text) { return {text.begin(), text.end()}; }

class FileBytes : public testing::Test {
  protected:
    void SetUp() override {
        const std::string name = testing::UnitTest::GetInstance()->current_test_info()->name();
        folder = fs::temp_directory_path() / ("bytes-" + name + std::to_string(::getpid()));
        fs::create_directories(folder);
    }
    void TearDown() override { fs::remove_all(folder); }
    fs::path folder;
};

std::string text_of(const std::string& path) {
    const auto read = read_file(path, 1000);
    return read.ok() ? std::string(read->begin(), read->end()) : read.refusal().code;
}

TEST_F(FileBytes, AreWrittenAndReadBack) {
    const std::string path = (folder / "a").string();
    ASSERT_TRUE(write_file(path, bytes_of("first")).ok());
    EXPECT_EQ(text_of(path), "first");
    ASSERT_TRUE(write_file(path, bytes_of("second")).ok());
    EXPECT_EQ(text_of(path), "second");
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1) << "no temporary is left";
}

TEST_F(FileBytes, ALinksTargetIsReplacedNotTheLink) {
    const fs::path target = folder / "target";
    const fs::path link = folder / "link";
    ASSERT_TRUE(write_file(target.string(), bytes_of("old")).ok());
    fs::create_symlink(target, link);
    ASSERT_TRUE(write_file(link.string(), bytes_of("new")).ok());
    EXPECT_TRUE(fs::is_symlink(link));
    EXPECT_EQ(text_of(target.string()), "new");
}

TEST_F(FileBytes, FailuresGiveTheReason) {
    for (const std::string& path :
         {(folder / "none" / "a").string(), folder.string(), std::string("/dev/full")}) {
        const auto written = write_file(path, bytes_of("x"));
        ASSERT_FALSE(written.ok()) << path;
        EXPECT_EQ(written.refusal().code, "io");
        EXPECT_NE(written.refusal().message.find(path), std::string::npos);
    }
    EXPECT_TRUE(fs::exists("/dev/full"));
    EXPECT_TRUE(fs::is_empty(folder));
}

TEST_F(FileBytes, ALimitHoldsExactly) {
    const std::string path = (folder / "a").string();
    ASSERT_TRUE(write_file(path, bytes_of("12345")).ok());
    EXPECT_TRUE(read_file(path, 5).ok());
    ASSERT_FALSE(read_file(path, 4).ok());
    EXPECT_EQ(read_file(path, 4).refusal().code, "too-large");
    // Without an end: the limit is all that stops it.
    EXPECT_EQ(read_file("/dev/zero", 1000000).refusal().code, "too-large");
}

TEST(Sha256, PublishedExamples) {
    // FIPS 180-4, examples of the NIST cryptographic standards page: "abc" and the empty message.
    EXPECT_EQ(sha256_hex(bytes_of("abc")),
              "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256_hex({}), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

}  // namespace
}  // namespace ridgetally
