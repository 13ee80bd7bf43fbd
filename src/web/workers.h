#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>

#include "web/http.h"

namespace ridgetally::web {

struct WorkerLimits {
    std::size_t jobs = 1;      ///< works done at the same time
    std::size_t waiting = 64;  ///< further ones that wait for their turn: 50 phones at once and some
    std::chrono::milliseconds turn{std::chrono::minutes(5)};  ///< longest wait for one's turn
    std::chrono::milliseconds work{std::chrono::minutes(1)};  ///< longest time a work may take
};

/// Does long works on few threads, in the order they come. A work that takes too long is left alone: it goes
/// on and keeps its thread busy, but its answer is dropped.
class Workers {
  public:
    Workers(const WorkerLimits& limits, TellFault tell);
    Workers(const Workers&) = delete;
    Workers& operator=(const Workers&) = delete;
    ~Workers();  ///< finishes

    /// Does the work and gives its answer, or 503 "busy" where too many wait already or the wait was too
    /// long, 504 "took-too-long", 500 where the work threw, which is told. What the work holds is given up
    /// with it.
    [[nodiscard]] Reply run(std::function<Reply()> work);

    /// Takes up nothing more; whoever waits is answered 503.
    void stop();

    /// Stops, and waits for works that are being done: what they use must last until then.
    void finish();

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace ridgetally::web
