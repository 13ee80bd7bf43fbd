#include "web/workers.h"

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace ridgetally::web {
namespace {

using Clock = std::chrono::steady_clock;

struct Job {
    std::function<Reply()> work;
    std::optional<Clock::time_point> begun;
    std::optional<Reply> reply;
};

Reply outcome_of(const std::function<Reply()>& work, const TellFault& tell) {
    try {
        return work();
    } catch (const std::exception& fault) {
        tell(fault.what());
        return error_reply(500, "fault", "a fault of the program; another photo may do");
    }
}

Reply stopping() { return busy_reply("the server is being stopped"); }

}  // namespace

struct Workers::State {
    WorkerLimits limits;
    TellFault tell;
    std::mutex mutex;
    std::condition_variable work_came;
    std::condition_variable job_moved;  ///< begun, done, or everything stops
    std::deque<std::shared_ptr<Job>> waiting;
    bool stopped = false;
    std::vector<std::thread> threads;

    void serve();
    Reply wait_for(const std::shared_ptr<Job>& job);
};

void Workers::State::serve() {
    std::unique_lock lock(mutex);
    for (;;) {
        work_came.wait(lock, [&] { return stopped || !waiting.empty(); });
        if (stopped) return;
        const auto job = waiting.front();
        waiting.pop_front();
        job->begun = Clock::now();
        job_moved.notify_all();
        lock.unlock();
        Reply reply = outcome_of(job->work, tell);
        job->work = nullptr;  // and with it the photo
        lock.lock();
        job->reply = std::move(reply);
        job_moved.notify_all();
    }
}

Reply Workers::State::wait_for(const std::shared_ptr<Job>& job) {
    std::unique_lock lock(mutex);
    if (stopped) return stopping();
    if (waiting.size() >= limits.waiting)
        return busy_reply("too many photos are waiting to be measured; try again in a moment");
    waiting.push_back(job);
    work_came.notify_one();
    const bool had_turn =
        job_moved.wait_until(lock, Clock::now() + limits.turn, [&] { return stopped || job->begun; });
    if (!job->begun) {
        std::erase(waiting, job);
        return had_turn ? stopping()
                        : busy_reply("the photos before this one take too long; try again later");
    }
    job_moved.wait_until(lock, *job->begun + limits.work, [&] { return stopped || job->reply; });
    if (job->reply) return *job->reply;
    if (stopped) return stopping();
    return error_reply(504, "took-too-long", "measuring took too long; a smaller photo may do");
}

Workers::Workers(const WorkerLimits& limits, TellFault tell) : state_(std::make_unique<State>()) {
    state_->limits = limits;
    state_->tell = std::move(tell);
    for (std::size_t i = 0; i < std::max<std::size_t>(1, limits.jobs); ++i)
        state_->threads.emplace_back([state = state_.get()] { state->serve(); });
}

Workers::~Workers() { finish(); }

void Workers::finish() {
    stop();
    for (auto& thread : state_->threads) thread.join();
    state_->threads.clear();
}

Reply Workers::run(std::function<Reply()> work) {
    const auto job = std::make_shared<Job>();
    job->work = std::move(work);
    return state_->wait_for(job);
}

void Workers::stop() {
    const std::lock_guard lock(state_->mutex);
    state_->stopped = true;
    state_->work_came.notify_all();
    state_->job_moved.notify_all();
}

}  // namespace ridgetally::web
