#include "cli/batch.h"

#include <algorithm>
#include <atomic>
#include <csignal>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

#include "cli/end_signals.h"
#include "cli/progress.h"
#include "cli/streams.h"

namespace ridgetally {
namespace {

/// Puts finished lines in order and writes them.
class OrderedOutput {
  public:
    explicit OrderedOutput(std::size_t count) : waiting_(count), progress_(count) {}

    void finished(std::size_t index, BatchLine line) {
        const std::lock_guard lock(mutex_);
        status_ = worse_of(status_, line.status);
        waiting_[index] = std::move(line.text);
        ++done_;
        if (waiting_[written_]) progress_.clear();
        while (written_ < waiting_.size() && waiting_[written_]) write_next();
        progress_.show(done_);
    }
    [[nodiscard]] bool broken() const { return broken_; }
    [[nodiscard]] ExitStatus status() {
        const std::lock_guard lock(mutex_);
        return status_;
    }

  private:
    void write_next() {
        if (!broken_ && write_output(*waiting_[written_]) != ExitStatus::ok) {
            broken_ = true;
            status_ = worse_of(status_, ExitStatus::io);
        }
        waiting_[written_] = std::string();
        ++written_;
    }

    std::mutex mutex_;
    std::vector<std::optional<std::string>> waiting_;
    Progress progress_;
    std::size_t written_ = 0;
    std::size_t done_ = 0;
    ExitStatus status_ = ExitStatus::ok;
    std::atomic<bool> broken_ = false;
};

}  // namespace

ExitStatus run_batch(std::size_t count, const BatchOptions& options,
                     const std::function<BatchLine(std::size_t)>& work) {
    EndSignals signals;
    std::atomic<int> stopped_by = 0;
    OrderedOutput output(count);
    std::atomic<std::size_t> next = 0;
    signals.call([&](int signal) { stopped_by = signal; });
    const auto worker = [&] {
        const auto goes_on = [&] { return !output.broken() && stopped_by == 0; };
        while (goes_on()) {
            const std::size_t i = next++;
            if (i >= count) return;
            output.finished(i, work(i));
        }
    };
    {
        std::vector<std::jthread> threads;
        for (std::size_t i = 1; i < std::min(options.jobs, count); ++i) threads.emplace_back(worker);
        worker();
    }
    if (stopped_by == 0) return output.status();
    return stopped_by == SIGINT ? ExitStatus::interrupted : ExitStatus::terminated;
}

}  // namespace ridgetally
