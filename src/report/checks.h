#pragma once

#include <string>
#include <vector>

#include "advice/crown_checks.h"
#include "report/document.h"

namespace ridgetally {

/// Checks of a crown or a piece, in a document and for people.
[[nodiscard]] Document checks_document(const std::vector<CrownCheck>& checks);
[[nodiscard]] std::string check_lines(const std::vector<CrownCheck>& checks);

}  // namespace ridgetally
