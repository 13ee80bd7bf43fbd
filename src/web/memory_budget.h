#pragma once

#include <atomic>
#include <cstddef>
#include <memory>

namespace ridgetally::web {

/// How much memory the bodies of all requests together may take. A request reserves what it announces before
/// its body is read and gives it back when nobody holds the request any more.
class MemoryBudget {
  public:
    explicit MemoryBudget(std::size_t bytes);

    /// Keeps the bytes reserved while it lives; null where there are not so many left.
    [[nodiscard]] std::shared_ptr<const void> reserve(std::size_t bytes) const;

    [[nodiscard]] std::size_t left() const { return *left_; }

  private:
    std::shared_ptr<std::atomic<std::size_t>> left_;  ///< outlives the budget while anything is reserved
};

}  // namespace ridgetally::web
