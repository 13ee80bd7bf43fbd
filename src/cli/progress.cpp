#include "cli/progress.h"

#include "cli/streams.h"

namespace ridgetally {
namespace {

constexpr std::size_t bar_columns = 40;  // half of the narrowest terminal

}  // namespace

std::string progress_bar(std::size_t done, std::size_t total, std::size_t columns) {
    const std::size_t filled = total == 0 ? columns : columns * done / total;
    return std::string(filled, '#') + std::string(columns - filled, '-') + "  " + std::to_string(done) +
           " of " + std::to_string(total);
}

Progress::Progress(std::size_t total) : total_(total), visible_(error_is_a_terminal()) { show(0); }

Progress::~Progress() { clear(); }

void Progress::show(std::size_t done) {
    if (!visible_) return;
    std::string line(1, '\r');
    line += progress_bar(done, total_, bar_columns);
    write_error(line);
}

void Progress::clear() {
    if (visible_) write_error("\r\x1b[K");
}

}  // namespace ridgetally
