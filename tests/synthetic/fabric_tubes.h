#pragma once

#include "synthetic/fabric_grid.h"
#include "synthetic/tubes.h"

namespace ridgetally::synthetic {

/// Every visible strand of the piece, as tubes over the table. `base_mm`: height of what it lies on.
[[nodiscard]] std::vector<Tube> fabric_tubes(const Fabric& fabric, int yarn_index, double base_mm);

}  // namespace ridgetally::synthetic
