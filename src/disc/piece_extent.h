#pragma once

#include <optional>
#include <vector>

#include "core/geometry.h"
#include "fabric/fabric_region.h"

namespace ridgetally {

/// Width and height of a flat piece on one plane, and the lines they were taken along.
struct PieceExtent {
    double width_mm = 0.0;
    double height_mm = 0.0;
    double width_spread_mm = 0.0;       ///< half the distance of the quartiles of the lines across
    double height_spread_mm = 0.0;      ///< and of those from brim to crown
    double px_mm = 0.0;                 ///< of the mask: the edges are known to about one
    double turn_rad = 0.0;              ///< of the width's direction on the plane, clockwise
    std::vector<PhotoPoint> width_px;   ///< ends of the line in the middle of those across
    std::vector<PhotoPoint> height_px;  ///< and of those from brim to crown
};

/// Sizes of the piece as it lies upright in the photo: width across its wider half (a hat narrows towards the
/// crown), height through its middle half, medians over all lines there. The piece is set straight by its own
/// sides within 20 degrees, or by the direction told. None where the mask is empty.
[[nodiscard]] std::optional<PieceExtent> piece_extent(const FabricRegion& region,
                                                      const PhotoFromObject& photo_from_plane,
                                                      std::optional<double> told_turn_rad);

}  // namespace ridgetally
