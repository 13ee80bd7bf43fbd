#pragma once

#include <vector>

#include "core/measured.h"
#include "fabric/fabric_patch.h"
#include "lattice/lattice.h"
#include "lattice/phase.h"
#include "lattice/reading.h"

namespace ridgetally {

/// Pitches of a patch whose x axis runs along the rows, from the phases of its texture.
struct PitchFit {
    std::vector<PhaseField> stitch_fields;  ///< one a texture channel, against the comb of the first guess
    std::vector<PhaseField> row_fields;
    PhasePitch stitch;
    PhasePitch row;             ///< of a period
    double row_tilt_rad = 0.0;  ///< of the rows against the patch's x axis, clockwise
};

/// `patch` is row-aligned; the pitches are first guesses good to 15 %.
[[nodiscard]] PitchFit fit_pitches(const FabricPatch& patch, double stitch_pitch_px, double period_px);

/// A reading made precise on a patch whose x axis runs along the rows.
struct RefinedReading {
    Measured stitch_pitch_px;
    Measured period_px;
    double stitch_coherence = 0.0;  ///< 0 to 1, at `stitch_lag_px`
    double row_coherence = 0.0;
    std::vector<PhaseField> stitch_fields;  ///< as in the fit
    std::vector<PhaseField> row_fields;
    std::vector<PartReading> parts;
    std::vector<BlockPitch> blocks;
};

/// Pitch, its scatter over blocks of the patch, and the phase fields to trace ridges from.
[[nodiscard]] RefinedReading refined(PitchFit fit, const FabricPatch& patch);

}  // namespace ridgetally
