#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <variant>

namespace ridgetally {

/// "I could not measure this", as a value: which stage gave up, a stable code for programs, one line for
/// people, and what to change in the photo or the command.
struct Refusal {
    std::string stage;
    std::string code;
    std::string message;
    std::string hint;
};

/// Either a measured T or the Refusal that says why there is none.
template <typename T>
class [[nodiscard]] Outcome {
  public:
    Outcome(T value) : state_(std::move(value)) {}
    Outcome(Refusal refusal) : state_(std::move(refusal)) {}

    [[nodiscard]] bool ok() const { return std::holds_alternative<T>(state_); }
    explicit operator bool() const { return ok(); }

    /// The measured value. Asking a refusal for one is misuse: std::logic_error.
    [[nodiscard]] const T& value() const& {
        require_value();
        return std::get<T>(state_);
    }
    [[nodiscard]] T&& value() && {
        require_value();
        return std::get<T>(std::move(state_));
    }
    const T& operator*() const& { return value(); }
    const T* operator->() const { return &value(); }

    /// The refusal. Asking a measured value for one is misuse: std::logic_error.
    [[nodiscard]] const Refusal& refusal() const {
        if (ok()) throw std::logic_error("Outcome holds a value, not a refusal");
        return std::get<Refusal>(state_);
    }

  private:
    void require_value() const {
        if (!ok()) throw std::logic_error("Outcome holds a refusal: " + std::get<Refusal>(state_).message);
    }
    std::variant<T, Refusal> state_;
};

}  // namespace ridgetally
