#include "cli/batch.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <string>
#include <thread>

#include "cli/progress.h"

namespace ridgetally {
namespace {

/// Late items first: item 0 takes longest.
BatchLine slow_line(std::size_t index) {
    std::this_thread::sleep_for(std::chrono::milliseconds(20 - 2 * static_cast<int>(index)));
    return {"line " + std::to_string(index) + "\n", index == 3 ? ExitStatus::refused : ExitStatus::ok};
}

TEST(Batch, WritesLinesInTheOrderGivenWhateverFinishesFirst) {
    testing::internal::CaptureStdout();
    const ExitStatus status = run_batch(8, {4}, slow_line);
    const std::string out = testing::internal::GetCapturedStdout();
    std::string expected;
    for (int i = 0; i < 8; ++i) expected += "line " + std::to_string(i) + "\n";
    EXPECT_EQ(out, expected);
    EXPECT_EQ(status, ExitStatus::refused);
}

TEST(Batch, DoesEveryItemOnceWithMoreJobsThanItems) {
    std::atomic<int> calls = 0;
    testing::internal::CaptureStdout();
    const ExitStatus status = run_batch(3, {16}, [&](std::size_t) {
        ++calls;
        return BatchLine{"x\n", ExitStatus::ok};
    });
    EXPECT_EQ(testing::internal::GetCapturedStdout(), "x\nx\nx\n");
    EXPECT_EQ(calls, 3);
    EXPECT_EQ(status, ExitStatus::ok);
}

TEST(Progress, BarGrowsFromNothingToFull) {
    EXPECT_EQ(progress_bar(0, 4, 8), "--------  0 of 4");
    EXPECT_EQ(progress_bar(1, 4, 8), "##------  1 of 4");
    EXPECT_EQ(progress_bar(4, 4, 8), "########  4 of 4");
    EXPECT_EQ(progress_bar(0, 0, 2), "##  0 of 0");
}

}  // namespace
}  // namespace ridgetally
