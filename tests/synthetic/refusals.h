#pragma once

#include <vector>

#include "synthetic/random_scene.h"

namespace ridgetally::synthetic {

/// Names of the scenes that must be refused, in a fixed order: "no-ruler", "no-fabric", "unreadable-marks",
/// "two-fabrics", "woven", "bricks", "keyboard", "grid", "comb", "barcode", "zip", "plate", "coin",
/// "yarn-ball", and "fabric-and-..." traps where something with marks lies in the ruler's place.
[[nodiscard]] const std::vector<std::string>& refusal_kinds();

/// A photo that has no right answer. The same seed, kind and variety give the same shot.
[[nodiscard]] Shot random_refusal(std::uint64_t seed, const std::string& kind, const Variety& variety);

}  // namespace ridgetally::synthetic
