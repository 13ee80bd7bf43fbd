#include "cli/run_program.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace ridgetally::blackbox {
namespace {

namespace fs = std::filesystem;

fs::path scratch_file(const char* what) {
    static int count = 0;
    return fs::path(testing::TempDir()) /
           ("ridgetally-run-" + std::to_string(::getpid()) + "-" + std::to_string(++count) + "-" + what);
}

/// Puts standard output of this (child) process where it is wanted.
void redirect_output(Output output, const fs::path& file) {
    if (output == Output::closed) {
        ::close(STDOUT_FILENO);
        return;
    }
    int descriptor = -1;
    if (output == Output::reader_gone) {
        std::array<int, 2> ends{};
        if (::pipe(ends.data()) == 0) {
            ::close(ends[0]);
            descriptor = ends[1];
        }
    } else {
        const char* name = output == Output::full_disk ? "/dev/full" : file.c_str();
        descriptor = ::open(name, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    }
    ::dup2(descriptor, STDOUT_FILENO);
    ::close(descriptor);
}

[[noreturn]] void become(const std::vector<std::string>& arguments, Output output, const fs::path& out,
                         const fs::path& err) {
    std::vector<char*> words;
    std::string program = RIDGETALLY_BINARY;
    words.push_back(program.data());
    std::vector<std::string> copies = arguments;
    for (auto& word : copies) words.push_back(word.data());
    words.push_back(nullptr);
    // Whatever record the person has who runs the tests is left alone.
    ::setenv("RIDGETALLY_RECORD", "/nonexistent/record.db", 0);
    redirect_output(output, out);
    const int descriptor = ::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(descriptor, STDERR_FILENO);
    ::close(descriptor);
    ::execv(program.c_str(), words.data());
    ::_exit(127);
}

/// A run that goes on.
struct Started {
    pid_t child = -1;
    fs::path out;
    fs::path err;
};

Started start(const std::vector<std::string>& arguments, Output output) {
    Started started{-1, scratch_file("out"), scratch_file("err")};
    started.child = ::fork();
    if (started.child < 0) throw std::runtime_error("no process could be started");
    if (started.child == 0) become(arguments, output, started.out, started.err);
    return started;
}

Finished wait_for(const Started& started) {
    int ended = 0;
    ::waitpid(started.child, &ended, 0);
    Finished finished{WIFEXITED(ended) ? WEXITSTATUS(ended) : -1, bytes_of(started.out.string()),
                      bytes_of(started.err.string())};
    fs::remove(started.out);
    fs::remove(started.err);
    return finished;
}

}  // namespace

std::string bytes_of(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    return bytes.str();
}

nlohmann::json Finished::json() const {
    auto document = nlohmann::json::parse(out, nullptr, false);
    if (document.is_discarded()) {
        ADD_FAILURE() << "no JSON: " << out << err;
        return nlohmann::json::object();
    }
    return document;
}

Finished run(const std::vector<std::string>& arguments, Output output) {
    const Started started = start(arguments, output);
    return wait_for(started);
}

Finished run_and_signal(const std::vector<std::string>& arguments, std::size_t lines, int signal) {
    const Started started = start(arguments, Output::captured);
    while (lines_of(bytes_of(started.out.string())).size() < lines) {
        // Left as it is: wait_for asks again.
        siginfo_t info{};
        if (::waitid(P_PID, static_cast<id_t>(started.child), &info, WEXITED | WNOHANG | WNOWAIT) == 0 &&
            info.si_pid != 0)
            break;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    ::kill(started.child, signal);
    return wait_for(started);
}

nlohmann::json block_of(std::vector<std::string> arguments, const std::string& key) {
    arguments.emplace_back("--json");
    const Finished finished = run(arguments);
    EXPECT_EQ(finished.status, 0) << finished.err;
    return finished.json()[key];
}

std::string sample(const std::string& name) {
    return std::string(RIDGETALLY_SOURCE_DIR) + "/samples/" + name;
}

void WithFolder::SetUp() {
    folder_ = scratch_file(testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_);
}

void WithFolder::TearDown() { fs::remove_all(folder_); }

void WithFolder::write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) {
        if (!line.empty()) lines.push_back(line);
    }
    return lines;
}

}  // namespace ridgetally::blackbox
