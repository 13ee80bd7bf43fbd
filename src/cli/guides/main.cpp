// Writes man page and shell completions into a folder, named as they are installed. Run by the build.
//   ridgetally_guides FOLDER
#include <CLI/CLI.hpp>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>

#include "cli/commands.h"
#include "cli/guides/command_guide.h"

namespace {

void write(const std::filesystem::path& file, const std::string& text) {
    std::ofstream out(file, std::ios::binary);
    out << text << std::flush;
    if (!out) throw std::runtime_error(file.string() + ": cannot be written");
}

void write_guides(const std::filesystem::path& folder) {
    CLI::App program;
    const auto commands = ridgetally::add_command_line(program);
    const auto guide = ridgetally::guides::command_guide(program);
    write(folder / "ridgetally.1", ridgetally::guides::man_page(guide, program.version()));
    write(folder / "ridgetally.bash", ridgetally::guides::bash_completion(guide));
    write(folder / "_ridgetally", ridgetally::guides::zsh_completion(guide));
    write(folder / "ridgetally.fish", ridgetally::guides::fish_completion(guide));
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "usage: ridgetally_guides FOLDER\n";
        return 64;
    }
    try {
        write_guides(argv[1]);
    } catch (const std::exception& fault) {
        std::cerr << "ridgetally_guides: " << fault.what() << "\n";
        return 74;
    }
    return 0;
}
