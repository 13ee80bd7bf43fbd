#include "cli/streams.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <string>

namespace ridgetally {
namespace {

ExitStatus write_all(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(descriptor, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return ExitStatus::io;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return ExitStatus::ok;
}

}  // namespace

void guard_standard_streams() {
    std::signal(SIGPIPE, SIG_IGN);
    for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        if (::fcntl(descriptor, F_GETFD) != -1 || errno != EBADF) continue;
        // The lowest free number is this one. Opened the wrong way round, so that using it fails.
        (void)!::open("/dev/null", descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY);
    }
}

ExitStatus write_output(std::string_view text) {
    const ExitStatus status = write_all(STDOUT_FILENO, text);
    if (status != ExitStatus::ok) complain("standard output cannot be written");
    return status;
}

void complain(std::string_view text) { write_error("ridgetally: " + std::string(text) + "\n"); }

void write_error(std::string_view text) { (void)write_all(STDERR_FILENO, text); }

bool error_is_a_terminal() { return ::isatty(STDERR_FILENO) == 1; }

}  // namespace ridgetally
