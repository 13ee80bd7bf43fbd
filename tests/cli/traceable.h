#pragma once

#include <string>
#include <vector>

namespace ridgetally::blackbox {

/// Numbers of `answer` (the text without --why) that no number of `why` (the part --why adds) explains: none
/// is equal to it within one unit of its last decimal. Marks of hooks in brackets are names, not numbers.
[[nodiscard]] std::vector<std::string> untraceable_numbers(const std::string& answer, const std::string& why);

/// Runs the command with and without --why and gives the numbers that cannot be traced.
[[nodiscard]] std::vector<std::string> untraceable_numbers_of(const std::vector<std::string>& arguments);

}  // namespace ridgetally::blackbox
