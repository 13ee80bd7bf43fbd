#pragma once

#include "cli/api/context.h"
#include "report/document.h"

namespace ridgetally::api {

/// What the page offers to choose from, out of the program's facts, and how large a photo may be.
[[nodiscard]] Document choices_document(const Context& context);

}  // namespace ridgetally::api
