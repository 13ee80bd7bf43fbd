#pragma once

#include <vector>

#include "fabric/fabric_region.h"

namespace ridgetally {

/// Pieces of the photo that brightness or colour alone sets apart, largest first; of each only the mask is
/// filled in. Fabric is found by its texture; where that fails (dark yarn in dim light, a table as busy as
/// the yarn) a crown may still be told by its roundness among these. What lies under `keep_out_px` belongs to
/// none.
[[nodiscard]] std::vector<FabricRegion> colour_pieces(const Photo& photo, const FindFabricOptions& options);

}  // namespace ridgetally
