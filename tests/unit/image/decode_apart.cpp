#include "decode_apart.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstring>
#include <stdexcept>

namespace ridgetally::files {
namespace {

long peak_kib() {
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

}  // namespace

Taken decode_apart(const Bytes& file) {
    struct Message {
        std::array<char, 32> code{};
        long grown_kib = 0;
    };
    std::array<int, 2> ends{};
    if (::pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
    const pid_t child = ::fork();
    if (child == 0) {
        const long before = peak_kib();
        const auto photo = decode_photo(file, "", any_size());
        Message message;
        std::strncpy(message.code.data(), photo.ok() ? "read" : photo.refusal().code.c_str(),
                     message.code.size() - 1);
        message.grown_kib = peak_kib() - before;
        ::_exit(::write(ends[1], &message, sizeof message) == sizeof message ? 0 : 1);
    }
    ::close(ends[1]);
    Message message;
    const bool told = ::read(ends[0], &message, sizeof message) == sizeof message;
    ::close(ends[0]);
    ::waitpid(child, nullptr, 0);
    return {told ? message.code.data() : "ended early", message.grown_kib};
}

}  // namespace ridgetally::files
