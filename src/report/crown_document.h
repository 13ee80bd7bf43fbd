#pragma once

#include "advice/crown_checks.h"
#include "pipeline/crown_result.h"
#include "report/document.h"

namespace ridgetally {

/// The document of `ridgetally crown`. Quantities that are not visible are absent.
[[nodiscard]] Document crown_document(const CrownResult& result, const std::vector<CrownCheck>& checks,
                                      const DocumentOptions& options = {});

}  // namespace ridgetally
