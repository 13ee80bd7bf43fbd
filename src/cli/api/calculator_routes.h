#pragma once

#include <vector>

#include "cli/api/context.h"

namespace ridgetally::api {

/// POST /api/hook, /api/hat, /api/yarn-needed: the options of the commands of these names as JSON, in words
/// with underscores ("swatch_mass"); answered with `{"document", "text"}`. Options that name files are not
/// offered.
[[nodiscard]] std::vector<web::Route> calculator_routes(const Context& context);

}  // namespace ridgetally::api
