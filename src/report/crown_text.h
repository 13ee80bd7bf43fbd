#pragma once

#include <string>
#include <vector>

#include "advice/crown_checks.h"
#include "pipeline/crown_result.h"
#include "report/text.h"

namespace ridgetally {

/// The report of `ridgetally crown` for people, lines of at most 80 columns, newline at the end.
[[nodiscard]] std::string crown_text(const CrownResult& result, const std::vector<CrownCheck>& checks,
                                     const Catalog& catalog, const TextOptions& options);

}  // namespace ridgetally
