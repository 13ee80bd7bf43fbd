#include "web/transport/connection_threads.h"

namespace ridgetally::web {

void ConnectionThreads::enqueue(std::function<void()> connection) {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(std::move(connection));
    if (waiting_.size() > idle_ && threads_.size() < most_) threads_.emplace_back([this] { serve(); });
    came_.notify_one();
}

void ConnectionThreads::serve() {
    std::unique_lock lock(mutex_);
    for (;;) {
        ++idle_;
        came_.wait(lock, [&] { return ending_ || !waiting_.empty(); });
        --idle_;
        if (waiting_.empty()) return;
        const auto connection = std::move(waiting_.front());
        waiting_.pop_front();
        lock.unlock();
        connection();
        lock.lock();
    }
}

void ConnectionThreads::shutdown() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
        came_.notify_all();
    }
    for (auto& thread : threads_) thread.join();
}

}  // namespace ridgetally::web
