#pragma once

#include <sys/types.h>

#include <functional>

namespace ridgetally {

/// A child process that does `work` and ends with the status it gives; 99 where it threw. Nothing of the
/// test's own checks may be used inside.
class Child {
  public:
    explicit Child(const std::function<int()>& work);
    Child(const Child&) = delete;
    Child& operator=(const Child&) = delete;
    ~Child();

    /// As by kill -9.
    void kill() const;
    /// Waits for the end: the exit status, or minus the signal that ended it.
    [[nodiscard]] int status();

  private:
    pid_t number_;
    bool ended_ = false;
};

/// Status of a child that threw.
inline constexpr int child_threw = 99;

}  // namespace ridgetally
