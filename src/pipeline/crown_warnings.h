#pragma once

#include <vector>

#include "disc/disc_outline.h"
#include "pipeline/crown_result.h"

namespace ridgetally {

/// What a maker should know of a measured crown: a phone that was too near or how far is a guess, a hidden
/// edge, counts that are not sure. `result` holds sizes and counts already.
[[nodiscard]] std::vector<Warning> crown_warnings(const DiscOutline& outline, const CrownResult& result);

}  // namespace ridgetally
