#include "web/transport/deadline_stream.h"

#include <poll.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <cerrno>

namespace ridgetally::web {
namespace {

/// How long a waiting socket takes to notice that everything stops.
constexpr std::chrono::milliseconds glance{200};

}  // namespace

void DeadlineStream::allow(std::size_t bytes, std::chrono::milliseconds time) {
    bytes_left_ = bytes;
    until_ = Clock::now() + time;
}

bool DeadlineStream::wait(short event) const {
    for (;;) {
        const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until_ - Clock::now());
        if (left.count() <= 0 || (event == POLLIN && stopped_)) return false;
        pollfd polled{socket_, event, 0};
        const int ready = ::poll(&polled, 1, static_cast<int>(std::min(left, glance).count()));
        if (ready > 0) return true;
        if (ready < 0 && errno != EINTR) return false;
    }
}

bool DeadlineStream::is_readable() const { return wait(POLLIN); }

bool DeadlineStream::is_writable() const { return wait(POLLOUT); }

ssize_t DeadlineStream::read(char* to, size_t size) {
    size = std::min(size, bytes_left_);
    if (size == 0 || !wait(POLLIN)) return -1;
    const ssize_t got = ::recv(socket_, to, size, 0);
    if (got > 0) bytes_left_ -= static_cast<std::size_t>(got);
    return got;
}

ssize_t DeadlineStream::write(const char* from, size_t size) {
    if (!wait(POLLOUT)) return -1;
    return ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
}

void DeadlineStream::linger(std::chrono::milliseconds time) {
    ::shutdown(socket_, SHUT_WR);
    std::array<char, 65536> dropped{};
    until_ = Clock::now() + time;
    while (wait(POLLIN) && ::recv(socket_, dropped.data(), dropped.size(), 0) > 0) {
    }
}

void DeadlineStream::get_remote_ip_and_port(std::string& ip, int& port) const {
    ip.clear();  // nobody asks
    port = 0;
}

void DeadlineStream::get_local_ip_and_port(std::string& ip, int& port) const {
    ip.clear();
    port = 0;
}

}  // namespace ridgetally::web
