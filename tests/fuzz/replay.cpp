#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "fuzz_target.h"

/// Runs a fuzz target over the files of the folders that are named, once each, where there is no libFuzzer.
namespace {

namespace fs = std::filesystem;

std::vector<std::uint8_t> bytes_of(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::vector<fs::path> files_of(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.is_regular_file()) files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

int main(int argc, char** argv) {
    std::size_t count = 0;
    try {
        for (int i = 1; i < argc; ++i) {
            for (const auto& file : files_of(argv[i])) {
                // Told first: where the target ends the process, the last line names the input.
                std::printf("%s\n", file.c_str());
                std::fflush(stdout);
                const auto bytes = bytes_of(file);
                (void)LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
                ++count;
            }
        }
    } catch (const std::exception& fault) {
        std::fprintf(stderr, "%s\n", fault.what());
        return 1;
    }
    std::printf("%zu inputs\n", count);
    return count == 0 ? 1 : 0;
}
