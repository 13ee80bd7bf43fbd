#pragma once

#include <optional>
#include <vector>

#include "core/measured.h"
#include "fabric/fabric_patch.h"
#include "lattice/lattice.h"

namespace ridgetally {

/// The fabric's surface against the plane the lattice was read on.
struct SurfaceHeight {
    double camera_distance_mm = 0.0;  ///< to the plane of the reference
    double assumed_mm = 0.0;          ///< height of the plane the lattice was read on, above the reference
    double surface_mm = 0.0;          ///< height of the fabric's surface above the reference

    /// A length on the surface looks larger than one on the assumed plane: true length over read length
    /// (design notes: fabric whose top is h above the ruler at camera distance D looks larger by h / (D -
    /// h)).
    [[nodiscard]] double correction() const;
};

/// Height of the visible surface of crochet above the table for stitches of this width. A stitch is four to
/// five yarn radii wide (common practice, no source), so a yarn is 0.45 of the width thick and the fabric,
/// two strands, 0.9; the camera sees the upper strand, from the fabric's middle at 0.45 to its top at 0.9. (A
/// first version took the middle alone and read thick yarn on development renders 1 to 2 % too large.)
[[nodiscard]] double surface_height_mm(double stitch_width_mm);
/// Standard uncertainty of that height: evenly likely between that middle and that top.
[[nodiscard]] double surface_height_std_mm(double stitch_width_mm);

/// Counts per 10 cm from a pitch in pixels of the lattice's rectified picture, with the scale's own budget
/// added.
[[nodiscard]] Measured gauge_per_10cm(const Measured& pitch_px, double px_per_mm, const SurfaceHeight& height,
                                      const std::vector<Contribution>& scale_budget);

/// Size of a whole swatch.
struct SwatchExtent {
    double width_mm = 0.0;         ///< along the rows, median over the middle
    double height_mm = 0.0;        ///< across the rows
    double width_spread_mm = 0.0;  ///< half the distance of the quartiles: how ragged or skewed the sides are
    double height_spread_mm = 0.0;
};

/// Width and height of the outline along and across the rows, on the plane the lattice was read on. None for
/// an outline of fewer than three corners.
[[nodiscard]] std::optional<SwatchExtent> swatch_extent(const PatchSource& source, double row_direction_rad);

}  // namespace ridgetally
