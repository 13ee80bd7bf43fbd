#pragma once

#include <httplib.h>

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace ridgetally::web {

/// Threads for connections, made when they are needed and at most so many.
class ConnectionThreads : public httplib::TaskQueue {
  public:
    explicit ConnectionThreads(std::size_t most) : most_(most) {}

    void enqueue(std::function<void()> connection) override;
    /// Waits until everything enqueued is done.
    void shutdown() override;

  private:
    void serve();

    std::size_t most_;
    std::mutex mutex_;
    std::condition_variable came_;
    std::deque<std::function<void()>> waiting_;
    std::size_t idle_ = 0;
    bool ending_ = false;
    std::vector<std::thread> threads_;
};

}  // namespace ridgetally::web
