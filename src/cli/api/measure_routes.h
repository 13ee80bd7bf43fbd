#pragma once

#include <vector>

#include "cli/api/context.h"

namespace ridgetally::api {

/// POST /api/measure/swatch, .../crown, .../piece.
[[nodiscard]] std::vector<web::Route> measure_routes(const Context& context);

}  // namespace ridgetally::api
