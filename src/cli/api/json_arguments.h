#pragma once

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/outcome.h"

/// JSON objects as arguments of the command line, so that both are read, checked and refused by the same
/// options.
namespace ridgetally::api {

/// How a value is written as an argument.
enum class Shape {
    text,    ///< text or a number as it stands
    texts,   ///< the same, or a list of them: the option once for each
    flag,    ///< true: the option without a value
    points,  ///< [[x, y], ...]: "X,Y,X,Y,..."
    scale    ///< {"from_px": [x, y], "to_px": [x, y], "length"}: "X1,Y1,X2,Y2,LENGTH"
};

/// A key of a request and the option it stands for.
struct Word {
    std::string_view key;
    std::string_view option;  ///< "--want"
    Shape shape = Shape::text;
};

/// "--stitch=sc" and so on. Keys that are null or an empty text are as good as absent. Refusals: stage
/// "request", code "bad-request" for an unknown key or a value of the wrong kind.
[[nodiscard]] Outcome<std::vector<std::string>> arguments_from(const nlohmann::json& object,
                                                               std::span<const Word> words);

/// Null or an empty text: as good as not told.
[[nodiscard]] bool is_untold(const nlohmann::json& value);

/// Reads the object with the options of `command`. The refusal where that fails: what the option expects.
[[nodiscard]] std::optional<Refusal> read_options(CLI::App& command, const nlohmann::json& object,
                                                  std::span<const Word> words);

/// The text as a JSON object; an empty text is an empty one. Refusal: "bad-request".
[[nodiscard]] Outcome<nlohmann::json> parse_object(std::string_view text);

}  // namespace ridgetally::api
