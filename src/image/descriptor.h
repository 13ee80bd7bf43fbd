#pragma once

#include <unistd.h>

#include <cerrno>
#include <utility>

namespace ridgetally {

/// Owns a file descriptor; below 0 where opening failed.
class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    [[nodiscard]] int number() const { return number_; }
    /// 0, or the error that closing brought up: some systems report a full disk only then.
    [[nodiscard]] int close() { return ::close(std::exchange(number_, -1)) == 0 ? 0 : errno; }

  private:
    int number_;
};

}  // namespace ridgetally
