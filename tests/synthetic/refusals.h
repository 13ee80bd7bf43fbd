#pragma once

#include <vector>

#include "synthetic/random_scene.h"

namespace ridgetally::synthetic {

/// Names of the scenes that must be refused, in a fixed order: "no-ruler", "no-fabric" (the ruler alone),
/// "bare-table", "unreadable-marks", "two-fabrics"; things that are no swatch beside a good ruler ("woven",
/// "bricks", "keyboard", "plate", ...); "only-..." the thing alone, "ruler-on-..." the thing beyond the frame
/// on all sides with a ruler on it, and "fabric-and-..." traps where something with marks lies in the ruler's
/// place.
[[nodiscard]] const std::vector<std::string>& refusal_kinds();

/// Kinds of round things that are no crowns, beside a good ruler: those that are round by themselves, and
/// "round-..." what has no outline of its own ("woven", "bricks", ...) cut to a disc, as a coaster is.
[[nodiscard]] const std::vector<std::string>& round_things();

/// A photo that has no right answer. The same seed, kind and variety give the same shot.
[[nodiscard]] Shot random_refusal(std::uint64_t seed, const std::string& kind, const Variety& variety);

}  // namespace ridgetally::synthetic
