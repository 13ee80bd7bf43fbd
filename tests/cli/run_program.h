#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace ridgetally::blackbox {

/// Where the program's standard output goes.
enum class Output { captured, closed, full_disk, reader_gone };

/// What a run left behind.
struct Finished {
    int status = -1;  ///< exit status, or -1 where it ended by a signal
    std::string out;
    std::string err;

    /// Standard output as JSON; fails the test where it is none.
    [[nodiscard]] nlohmann::json json() const;
};

/// Runs the built program and waits for it.
[[nodiscard]] Finished run(const std::vector<std::string>& arguments, Output output = Output::captured);

/// Runs the program, sends it `signal` once it has written so many lines to standard output, and waits for
/// it.
[[nodiscard]] Finished run_and_signal(const std::vector<std::string>& arguments, std::size_t lines,
                                      int signal);

/// Runs with --json as well, expects it to end well, and gives one block of the document.
[[nodiscard]] nlohmann::json block_of(std::vector<std::string> arguments, const std::string& key);

/// A photograph of samples/.
[[nodiscard]] std::string sample(const std::string& name);

/// A test with an empty folder of its own, removed afterwards.
class WithFolder : public testing::Test {
  protected:
    void SetUp() override;
    void TearDown() override;
    [[nodiscard]] std::string path(const std::string& name) const { return (folder_ / name).string(); }
    void write(const std::string& name, const std::string& bytes) const;

  private:
    std::filesystem::path folder_;
};

/// Bytes of a file.
[[nodiscard]] std::string bytes_of(const std::string& file);

/// Number of lines that hold anything.
[[nodiscard]] std::vector<std::string> lines_of(const std::string& text);

}  // namespace ridgetally::blackbox
