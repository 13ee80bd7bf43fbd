#include "image/file_bytes.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <thread>

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

/// Runs `body` in a process of its own and gives its exit status; -1 where a signal ended it.
template <typename Body>
int in_a_child(Body body) {
    const pid_t child = ::fork();
    if (child == 0) ::_exit(body());
    int ended = 0;
    ::waitpid(child, &ended, 0);
    return WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
}

TEST_F(FileBytes, ADiskThatFillsUpHalfWayLeavesTheOldFileWhole) {
    const std::string path = (folder / "a").string();
    ASSERT_TRUE(write_file(path, bytes_of("old")).ok());
    EXPECT_EQ(in_a_child([&] {
                  // Writing past the limit fails then, instead of ending the process (setrlimit(2)).
                  std::signal(SIGXFSZ, SIG_IGN);
                  const rlimit limit{100000, 100000};
                  if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 90;
                  const std::vector<std::uint8_t> large(300000, 'n');
                  const auto written = write_file(path, large);
                  return !written.ok() && written.refusal().code == "io" ? 0 : 1;
              }),
              0);
    EXPECT_EQ(text_of(path), "old");
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1) << "nothing half-written is left";
}

TEST_F(FileBytes, AFolderThatMayNotBeWrittenIsLeftAsItIs) {
    const std::string path = (folder / "a").string();
    ASSERT_TRUE(write_file(path, bytes_of("old")).ok());
    fs::permissions(folder, static_cast<fs::perms>(0555));
    EXPECT_EQ(in_a_child([&] {
                  // Rights do not bind root: it becomes nobody.
                  constexpr uid_t nobody = 65534;
                  if (::geteuid() == 0 && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) return 90;
                  const auto written = write_file(path, bytes_of("new"));
                  return !written.ok() && written.refusal().code == "io" ? 0 : 1;
              }),
              0);
    fs::permissions(folder, fs::perms::owner_all);
    EXPECT_EQ(text_of(path), "old");
}

TEST_F(FileBytes, AProcessKilledAtAnyMomentLeavesOneWholeFile) {
    const std::string path = (folder / "a").string();
    constexpr std::size_t size = 200000;
    ASSERT_TRUE(write_file(path, std::vector<std::uint8_t>(size, 'a')).ok());
    constexpr int kills = 60;
    for (int trial = 0; trial < kills; ++trial) {
        const pid_t child = ::fork();
        if (child == 0) {
            for (std::uint8_t letter = 'a';;
                 letter = letter == 'z' ? 'a' : static_cast<std::uint8_t>(letter + 1))
                if (!write_file(path, std::vector<std::uint8_t>(size, letter)).ok()) ::_exit(1);
        }
        std::this_thread::sleep_for(std::chrono::microseconds(2000 + 137 * trial));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        const auto read = read_file(path, size);
        ASSERT_TRUE(read.ok()) << "trial " << trial;
        ASSERT_EQ(read->size(), size);
        EXPECT_EQ(std::count(read->begin(), read->end(), read->front()), static_cast<std::ptrdiff_t>(size));
        for (const auto& entry : fs::directory_iterator(folder)) {
            if (entry.path().string() == path) continue;
            // Only between its two last calls does the new file stand beside the old one, and then it is
            // whole.
            EXPECT_EQ(fs::file_size(entry.path()), size);
            fs::remove(entry.path());
        }
    }
}

TEST_F(FileBytes, SyncedFilesAreWrittenAsWell) {
    const std::string path = (folder / "a").string();
    ASSERT_TRUE(write_file(path, bytes_of("first"), Durability::synced).ok());
    ASSERT_TRUE(write_file(path, bytes_of("second"), Durability::synced).ok());
    EXPECT_EQ(text_of(path), "second");
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1);
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
