#pragma once

#include "synthetic/random_scene.h"

namespace ridgetally::synthetic {

/// A crown beside a ruler, of kind "crown": increase schemes of 6, 8 and 12 stitches a round (and uneven
/// ones), spirals and joined rounds, back-loop ribs, mixed heights, loose ends, waves and cups. `variety`
/// bounds family, ruler, size, tilt, unevenness and the share of photos that cut the crown. The same seed and
/// variety give the same shot.
[[nodiscard]] Shot random_crown(std::uint64_t seed, const Variety& variety);

}  // namespace ridgetally::synthetic
