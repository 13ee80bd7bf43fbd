#pragma once

#include <cstddef>
#include <string>

namespace ridgetally {

/// "####------  4 of 10": a bar of `columns` characters and the count.
[[nodiscard]] std::string progress_bar(std::size_t done, std::size_t total, std::size_t columns);

/// A bar on standard error that grows in place; nothing at all where that is no terminal.
class Progress {
  public:
    explicit Progress(std::size_t total);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    void show(std::size_t done);
    /// Takes the bar off the terminal, so that other text can stand there; the next show brings it back.
    void clear();

  private:
    std::size_t total_;
    bool visible_;
};

}  // namespace ridgetally
