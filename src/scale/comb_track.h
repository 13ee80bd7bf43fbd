#pragma once

#include <vector>

#include "scale/strip.h"

namespace ridgetally {

/// A few pitches of a comb, demodulated at the expected spacing.
struct CombBlock {
    double u = 0.0;
    double top_w = 0.0;      ///< rows where the comb is: from here ...
    double bottom_w = 0.0;   ///< ... to here
    double slant = 0.0;      ///< of the marks against the strip's columns, du per dw
    double index = 0.0;      ///< the comb's running index at u; whole numbers lie on dark strokes
    double coherence = 0.0;  ///< share of the rows' variance that is the comb's fundamental, 0 to 1
    double amplitude = 0.0;  ///< grey levels

    /// How much to believe the block: fabric beside the marks is as strong, never as coherent.
    [[nodiscard]] double weight() const { return coherence * coherence; }
};

/// Where a comb runs in a strip.
struct CombTrack {
    std::vector<CombBlock> blocks;  ///< only those where the comb was seen, sorted by u
};

/// Where to look for the comb and what to count as part of it.
struct TrackOptions {
    double reach_pitches = 1.0;  ///< from row w = 0: how well the row's place is known
    double band_share = 0.62;    ///< of the best row's coherence; beyond the short marks half of it is left
};

/// Demodulates the strip along its expected pitch and follows the comb's phase from block to block
/// (phase-locked: a missed mark does not lose the count), near row w = 0. Stretches
/// apart (something lies over the ruler) are joined where the longest one's spacing foretells the other's
/// phase.
[[nodiscard]] CombTrack track_comb(const Strip& strip, const StripFrame& frame,
                                   const TrackOptions& options = {});

/// The frame with base line, slant and pitch as the track saw them.
[[nodiscard]] StripFrame frame_along(const StripFrame& frame, const CombTrack& track);

/// Median deviation of the blocks' strokes from the lean fitted to all: marks are parallel, fabric is not.
[[nodiscard]] double lean_scatter(const CombTrack& track, const StripFrame& frame, const StripFrame& fitted);

}  // namespace ridgetally
