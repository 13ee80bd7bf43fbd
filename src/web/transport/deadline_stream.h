#pragma once

#include <httplib.h>

#include <atomic>
#include <chrono>

namespace ridgetally::web {

/// A socket whose reader or writer must be done by a point in time, however slowly the other side goes about
/// it, and that gives no more bytes than allowed.
class DeadlineStream : public httplib::Stream {
  public:
    using Clock = std::chrono::steady_clock;

    DeadlineStream(socket_t socket, const std::atomic<bool>& stopped) : socket_(socket), stopped_(stopped) {}

    /// From now on `bytes` more may be read or any number written, until `time` has passed.
    void allow(std::size_t bytes, std::chrono::milliseconds time);

    /// Ends the answer and reads what the client still sends, so that it gets to see the answer: a socket
    /// closed with unread bytes is reset (RFC 9112, section 9.6).
    void linger(std::chrono::milliseconds time);

    [[nodiscard]] bool is_readable() const override;
    [[nodiscard]] bool is_writable() const override;
    ssize_t read(char* to, size_t size) override;
    ssize_t write(const char* from, size_t size) override;
    void get_remote_ip_and_port(std::string& ip, int& port) const override;
    void get_local_ip_and_port(std::string& ip, int& port) const override;
    [[nodiscard]] socket_t socket() const override { return socket_; }

  private:
    [[nodiscard]] bool wait(short event) const;

    socket_t socket_;
    const std::atomic<bool>& stopped_;
    std::size_t bytes_left_ = 0;
    Clock::time_point until_;
};

}  // namespace ridgetally::web
