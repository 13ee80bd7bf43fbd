#include "web/memory_budget.h"

namespace ridgetally::web {

MemoryBudget::MemoryBudget(std::size_t bytes) : left_(std::make_shared<std::atomic<std::size_t>>(bytes)) {}

std::shared_ptr<const void> MemoryBudget::reserve(std::size_t bytes) const {
    std::size_t left = left_->load();
    do {
        if (left < bytes) return nullptr;
    } while (!left_->compare_exchange_weak(left, left - bytes));
    // What the pointer points to is of no use: giving it up is.
    return {left_.get(), [bytes, left_now = left_](const void*) { *left_now += bytes; }};
}

}  // namespace ridgetally::web
