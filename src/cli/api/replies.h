#pragma once

#include <string>

#include "core/outcome.h"
#include "report/document.h"
#include "web/http.h"

/// Answers of the web API.
namespace ridgetally::api {

[[nodiscard]] web::Reply json_reply(const Document& document, int status = 200);

/// A refusal as an error of HTTP: 400 for wrong values, 404 for what is not there, 409 where it does not go
/// with what is there, 503 for a busy record, 500 for faults of this computer, whose messages are replaced:
/// they name files.
[[nodiscard]] web::Reply refusal_reply(const Refusal& refusal);

[[nodiscard]] web::Reply bad_request(const std::string& message);

}  // namespace ridgetally::api
