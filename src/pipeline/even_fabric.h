#pragma once

#include <optional>

#include "lattice/lattice.h"
#include "pipeline/reference.h"
#include "pipeline/trace.h"

namespace ridgetally {

/// The plane of the fabric as the reference and the fabric's own evenness tell it together.
struct EvenedPlane {
    Rectification rectification;
    /// A length around the middle of the fabric on the new plane over the same on the old one, along the rows
    /// and across them.
    double along_rows = 1.0;
    double across_rows = 1.0;
};

/// Asks the fabric how its plane is tilted (`refine_tilt`): the pitches of its blocks should be one, but for
/// a slow drift. None where the reference says nothing of the tilt, where there are too few blocks, or where
/// the pitches scatter by more than the evenness of hand work explains, so that they say nothing about a
/// plane. `height_mm` is the height above the reference at which the lattice was read; `middle` the place of
/// the fabric where the gauge is stated.
[[nodiscard]] std::optional<EvenedPlane> evened_plane(const ReferencePlane& plane, const Lattice& lattice,
                                                      double height_mm, const PhotoPoint& middle,
                                                      Trace& trace);

}  // namespace ridgetally
