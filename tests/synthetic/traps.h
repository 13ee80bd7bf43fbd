#pragma once

#include "synthetic/surfaces.h"
#include "synthetic/tubes.h"

namespace ridgetally::synthetic {

/// Lays the flat parts of a thing that is no swatch.
void lay_trap(Surfaces& surfaces, const Scene& scene, const Trap& trap, const Projector& projector);

/// Its yarn, where it has any.
[[nodiscard]] std::vector<Tube> trap_tubes(const Trap& trap, int yarn_index);

}  // namespace ridgetally::synthetic
