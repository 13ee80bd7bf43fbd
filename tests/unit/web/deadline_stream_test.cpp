#include "web/transport/deadline_stream.h"

#include <gtest/gtest.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <thread>

namespace ridgetally::web {
namespace {

using namespace std::chrono_literals;

class DeadlineStreamTest : public testing::Test {
  protected:
    void SetUp() override { ASSERT_EQ(::socketpair(AF_UNIX, SOCK_STREAM, 0, ends.data()), 0); }
    void TearDown() override {
        for (const int end : ends) ::close(end);
    }
    void client_sends(const std::string& bytes) const {
        ASSERT_EQ(::send(ends[1], bytes.data(), bytes.size(), MSG_NOSIGNAL),
                  static_cast<ssize_t>(bytes.size()));
    }
    ssize_t read(DeadlineStream& stream, std::size_t size) {
        return stream.read(buffer.data(), std::min(size, buffer.size()));
    }
    std::array<int, 2> ends{};
    std::array<char, 100> buffer{};
    std::atomic<bool> stopped = false;
};

TEST_F(DeadlineStreamTest, GivesNoMoreBytesThanAllowed) {
    DeadlineStream stream(ends[0], stopped);
    stream.allow(5, 10s);
    client_sends("1234567890");
    EXPECT_EQ(read(stream, 3), 3);
    EXPECT_EQ(read(stream, 100), 2);
    EXPECT_EQ(read(stream, 100), -1);
    stream.allow(100, 10s);
    EXPECT_EQ(read(stream, 100), 5);
}

TEST_F(DeadlineStreamTest, AByteNowAndThenDoesNotPutOffTheEnd) {
    DeadlineStream stream(ends[0], stopped);
    stream.allow(100, 300ms);
    std::atomic<bool> over = false;
    std::thread client([&] {
        while (!over) {
            client_sends("x");
            std::this_thread::sleep_for(20ms);
        }
    });
    const auto before = DeadlineStream::Clock::now();
    while (read(stream, 1) == 1) {
    }
    over = true;
    client.join();
    const auto took = DeadlineStream::Clock::now() - before;
    EXPECT_GE(took, 290ms);
    EXPECT_LT(took, 2s);
}

TEST_F(DeadlineStreamTest, AClientThatDoesNotReadDoesNotHoldTheWriter) {
    DeadlineStream stream(ends[0], stopped);
    stream.allow(0, 200ms);
    const std::string much(1 << 20, 'x');
    ssize_t written = 1;
    for (int i = 0; written > 0 && i < 100; ++i) written = stream.write(much.data(), much.size());
    EXPECT_LE(written, 0);
}

TEST_F(DeadlineStreamTest, StoppingEndsTheWaitForAClient) {
    DeadlineStream stream(ends[0], stopped);
    stream.allow(100, 60s);
    std::thread stopper([&] {
        std::this_thread::sleep_for(50ms);
        stopped = true;
    });
    const auto before = DeadlineStream::Clock::now();
    EXPECT_EQ(read(stream, 1), -1);
    EXPECT_LT(DeadlineStream::Clock::now() - before, 5s);
    stopper.join();
}

}  // namespace
}  // namespace ridgetally::web
