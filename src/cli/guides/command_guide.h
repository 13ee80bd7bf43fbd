#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

/// Man page and shell completions, all made from the command line that the program itself reads.
namespace ridgetally::guides {

/// What may stand for a value on the command line.
enum class Fill { nothing, word, choice, file };

/// An option or a positional argument.
struct Argument {
    std::vector<std::string> spellings;  ///< "-h", "--help"; of a positional its name alone
    std::string value;                   ///< what the value is called, "N"; empty for a flag
    Fill fill = Fill::nothing;           ///< what a shell offers for the value
    std::vector<std::string> choices;    ///< the values there are, for Fill::choice
    std::string help;                    ///< one line
    std::string group;                   ///< heading it stands under
    bool required = false;
    bool repeated = false;
};

/// A command with all below it; the root is the program.
struct CommandGuide {
    std::vector<std::string> path;  ///< "ridgetally", "yarn", "add"
    std::string help;
    std::string footer;  ///< examples and exit status
    std::vector<Argument> options;
    std::vector<Argument> positionals;
    std::vector<CommandGuide> commands;

    [[nodiscard]] const std::string& name() const { return path.back(); }
    /// Path with `separator` between the names.
    [[nodiscard]] std::string joined(const std::string& separator) const;
};

/// Reads the tree of commands.
[[nodiscard]] CommandGuide command_guide(const CLI::App& program);

/// The command and all below it, each before those below it.
[[nodiscard]] std::vector<const CommandGuide*> every_command(const CommandGuide& root);

/// "ridgetally swatch [OPTIONS] PHOTO..."
[[nodiscard]] std::string usage(const CommandGuide& command);

/// `text` with every byte of `special` preceded by a backslash.
[[nodiscard]] std::string escaped(const std::string& text, const std::string& special);

/// `words` with one `separator` between them.
[[nodiscard]] std::string joined(const std::vector<std::string>& words, const std::string& separator);

/// A page for man(1), in the macros of man(7); `version` stands at its foot.
[[nodiscard]] std::string man_page(const CommandGuide& program, const std::string& version);

/// What complete(1) of bash, #compdef of zsh and complete(1) of fish read.
[[nodiscard]] std::string bash_completion(const CommandGuide& program);
[[nodiscard]] std::string zsh_completion(const CommandGuide& program);
[[nodiscard]] std::string fish_completion(const CommandGuide& program);

}  // namespace ridgetally::guides
