#pragma once

#include <csignal>
#include <functional>
#include <thread>

namespace ridgetally {

/// SIGINT and SIGTERM, kept from ending the program and waited for on a thread of their own. To be made
/// before any other thread, which inherit that they are kept.
class EndSignals {
  public:
    EndSignals();
    EndSignals(const EndSignals&) = delete;
    EndSignals& operator=(const EndSignals&) = delete;
    /// From here on they end the program as before.
    ~EndSignals();

    /// Calls `end` with the number of the first of them; the second ends the program as it stands, with the
    /// status that a shell gives for it. To be called once.
    void call(const std::function<void(int signal)>& end);

  private:
    sigset_t signals_{};
    sigset_t before_{};
    std::thread waiter_;
};

}  // namespace ridgetally
