#pragma once

#include <string>

#include "pipeline/swatch_result.h"

namespace ridgetally {

/// What the intervals are made of: every named contribution of the budget, largest first, with its share of
/// the variance; and every rival reading with its score.
[[nodiscard]] std::string explanation(const SwatchResult& result);
[[nodiscard]] std::string explanation(const ScaleReport& report);

}  // namespace ridgetally
