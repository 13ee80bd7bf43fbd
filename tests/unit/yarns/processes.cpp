#include "unit/yarns/processes.h"

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <exception>
#include <stdexcept>

namespace ridgetally {

Child::Child(const std::function<int()>& work) : number_(::fork()) {
    if (number_ < 0) throw std::runtime_error("no process could be started");
    if (number_ > 0) return;
    int status = child_threw;
    try {
        status = work();
    } catch (const std::exception& fault) {
        std::fprintf(stderr, "child: %s\n", fault.what());
    }
    ::_exit(status);
}

Child::~Child() {
    if (ended_) return;
    kill();
    (void)status();
}

void Child::kill() const { ::kill(number_, SIGKILL); }

int Child::status() {
    int ended = 0;
    ::waitpid(number_, &ended, 0);
    ended_ = true;
    return WIFEXITED(ended) ? WEXITSTATUS(ended) : -WTERMSIG(ended);
}

}  // namespace ridgetally
