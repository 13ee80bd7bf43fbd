#pragma once

#include <optional>
#include <vector>

#include "pipeline/swatch_result.h"

namespace ridgetally {

/// A diameter in one direction of the photo.
struct DirectedDiameter {
    double direction_deg = 0.0;  ///< of the line through the crown, clockwise from left to right
    Measured diameter_mm;
    PhotoPoint from_px;
    PhotoPoint to_px;
};

/// Diameter of the crown after one round.
struct RoundDiameter {
    int round = 0;  ///< 1: the first
    Measured diameter_mm;
};

/// What the annotated picture of a crown shows, in photo pixels.
struct CrownOverlay {
    PhotoPoint centre_px;
    std::vector<PhotoPoint> outline;     ///< as measured: loose ends left out, hidden parts filled in
    std::vector<PhotoCurve> hidden_rim;  ///< parts of the outline that the photo does not show
    std::vector<PhotoCurve> rounds;      ///< tops of the rounds inside the outline, numbered from the centre
    std::vector<PhotoCurve>
        stitches;  ///< where the last round's stitches begin: strokes from the rim inwards
};

/// A whole number that was counted: its uncertainty covers those that cannot be excluded.
struct CountedWhole {
    Measured count;
    int least = 0;  ///< cannot be excluded (95 of 100)
    int most = 0;
    double chance = 1.0;  ///< that the count is right
};

/// `ridgetally crown`: everything a report needs.
struct CrownResult {
    PhotoFacts photo;
    std::vector<PhotoFacts> photos;  ///< every photo of a combined result, the first included; empty for one
    ScaleResult scale;
    StitchReading stitch;
    Measured diameter_mm;      ///< of the circle with the area inside the yarn's outline, without fuzz
    Measured diameter_min_mm;  ///< smallest and largest through the centre, the last round's scallops evened
                               ///< out: the former is at most `diameter_mm`, the latter at least
    Measured diameter_max_mm;
    std::vector<DirectedDiameter> diameters;
    std::optional<CountedWhole> rounds;
    std::optional<CountedWhole> last_round_stitches;
    std::vector<CountedWhole> round_stitches;  ///< last round first, as far as they could be read
    /// Gauge of the crown: from the circumference through the middle of the last round, and from the height
    /// of its rounds.
    std::optional<Measured> stitches_per_10cm;
    std::optional<Measured> rounds_per_10cm;
    std::vector<RoundDiameter> round_diameters;  ///< inner first, where the rounds were followed
    double rim_seen_part = 1.0;                  ///< of the edge, 0 to 1
    std::vector<std::string> corrected;          ///< set by hand: "unit", "scale", "area", "rim"
    std::vector<Warning> warnings;
    CrownOverlay overlay;
};

}  // namespace ridgetally
