#pragma once

#include <vector>

#include "cli/api/context.h"

namespace ridgetally::api {

/// Everything under /api/yarns: the record of yarns, in documents of the schema "ridgetally.yarns/1".
[[nodiscard]] std::vector<web::Route> record_routes(const Context& context);

}  // namespace ridgetally::api
