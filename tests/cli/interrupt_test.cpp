#include <gtest/gtest.h>

#include <csignal>

#include "cli/run_program.h"

/// Ctrl-C in the middle of many photos.
namespace ridgetally::blackbox {
namespace {

using Interrupted = WithFolder;

constexpr std::size_t photo_count = 60;

std::vector<std::string> long_batch(const std::string& pictures) {
    std::vector<std::string> arguments = {"swatch", "--batch", "--jobs", "2", "--annotated", pictures};
    arguments.insert(arguments.end(), photo_count, sample("brimful-moss.jpg"));
    return arguments;
}

/// Whole lines only, a whole picture for each, nothing half-done beside them.
void expect_clean(const Finished& finished, const std::string& pictures) {
    ASSERT_FALSE(finished.out.empty());
    EXPECT_EQ(finished.out.back(), '\n');
    const auto lines = lines_of(finished.out);
    EXPECT_LT(lines.size(), photo_count);
    for (const auto& line : lines) {
        const auto document = nlohmann::json::parse(line, nullptr, false);
        ASSERT_FALSE(document.is_discarded()) << line;
        EXPECT_TRUE(std::filesystem::exists(document.value("annotated", "none"))) << line;
    }
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(pictures)) {
        EXPECT_EQ(entry.path().extension(), ".jpg") << entry.path();
        ++count;
    }
    EXPECT_EQ(count, lines.size()) << "each picture that was made has its line";
    EXPECT_EQ(finished.err, "");
}

TEST_F(Interrupted, ABatchEndsAfterThePhotosInWork) {
    const Finished finished = run_and_signal(long_batch(path("pictures")), 2, SIGINT);
    EXPECT_EQ(finished.status, 130);
    expect_clean(finished, path("pictures"));
}

TEST_F(Interrupted, TheSameWhenToldToTerminate) {
    const Finished finished = run_and_signal(long_batch(path("pictures")), 1, SIGTERM);
    EXPECT_EQ(finished.status, 143);
    expect_clean(finished, path("pictures"));
}

}  // namespace
}  // namespace ridgetally::blackbox
