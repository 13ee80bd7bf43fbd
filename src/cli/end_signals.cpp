#include "cli/end_signals.h"

#include <unistd.h>

namespace ridgetally {
namespace {

constexpr int wake = SIGUSR1;  // nobody else uses it

}  // namespace

EndSignals::EndSignals() {
    ::sigemptyset(&signals_);
    for (const int signal : {SIGINT, SIGTERM, wake}) ::sigaddset(&signals_, signal);
    ::pthread_sigmask(SIG_BLOCK, &signals_, &before_);
}

EndSignals::~EndSignals() {
    if (waiter_.joinable()) {
        ::pthread_kill(waiter_.native_handle(), wake);
        waiter_.join();
    }
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

void EndSignals::call(const std::function<void(int signal)>& end) {
    waiter_ = std::thread([this, end] {
        int signal = 0;
        ::sigwait(&signals_, &signal);
        if (signal == wake) return;
        end(signal);
        ::sigwait(&signals_, &signal);
        if (signal != wake) ::_exit(128 + signal);
    });
}

}  // namespace ridgetally
