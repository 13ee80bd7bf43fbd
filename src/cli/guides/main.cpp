// Writes man page and shell completions into a folder, named as they are installed. Run by the build.
//   ridgetally_guides FOLDER
#include <CLI/CLI.hpp>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>

#include "cli/commands.h"
#include "cli/guides/command_guide.h"

namespace {

bool write(const std::filesystem::path& file, const std::string& text) {
    std::ofstream out(file, std::ios::binary);
    out << text << std::flush;
    if (!out) std::cerr << file.string() << ": cannot be written\n";
    return static_cast<bool>(out);
}

}  // namespace

int main(int argc, char** argv) {
    using namespace ridgetally;
    if (argc != 2) {
        std::cerr << "usage: ridgetally_guides FOLDER\n";
        return 64;
    }
    const std::filesystem::path folder = argv[1];
    CLI::App program;
    const auto commands = add_command_line(program);
    const auto guide = guides::command_guide(program);
    const bool written = write(folder / "ridgetally.1", guides::man_page(guide, program.version())) &&
                         write(folder / "ridgetally.bash", guides::bash_completion(guide)) &&
                         write(folder / "_ridgetally", guides::zsh_completion(guide)) &&
                         write(folder / "ridgetally.fish", guides::fish_completion(guide));
    return written ? 0 : 74;
}
