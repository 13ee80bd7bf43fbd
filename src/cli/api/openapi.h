#pragma once

#include <span>

#include "web/page.h"

namespace ridgetally::api {

/// openapi.json, built in: the description of everything that is served (OpenAPI 3.1.0).
[[nodiscard]] std::span<const web::PageFile> description_files();

}  // namespace ridgetally::api
