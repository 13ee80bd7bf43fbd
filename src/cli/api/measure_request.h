#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "cli/measure_commands.h"

/// The `request` part of /api/measure/... as what swatch, crown and piece are told.
namespace ridgetally::api {

/// Each reads the object with the options of its command. Refusal: stage "request", code "bad-request".
[[nodiscard]] Outcome<SwatchArguments> swatch_request(const nlohmann::json& object);
[[nodiscard]] Outcome<CrownArguments> crown_request(const nlohmann::json& object);
[[nodiscard]] Outcome<PieceArguments> piece_request(const nlohmann::json& object);

/// What is shown of a file's name as the client told it: what stands behind the last slash of either kind, on
/// one line, at most 120 bytes; "photo" where nothing is left.
[[nodiscard]] std::string shown_file_name(std::string_view told);

}  // namespace ridgetally::api
