#pragma once

#include <string>
#include <vector>

#include "core/geometry.h"

namespace ridgetally {

/// What a graduation counts in.
enum class LengthUnit { mm, inch };

/// One mark of a graduation that was found in the photo. Its foot lies on the graduated edge or on the line
/// the marks share; its tip is the other end. Where the mark's extent is unknown (a point given by hand) both
/// are equal.
struct ScaleMark {
    double position_mm = 0.0;  ///< along the graduation, from any zero
    PhotoPoint foot_px;
    PhotoPoint tip_px;
};

/// Marks that share one straight (or gently bent) graduated line, sorted by position.
struct MarkLine {
    LengthUnit unit = LengthUnit::mm;
    double spacing_mm = 1.0;  ///< between neighbouring marks of the finest class seen
    std::vector<ScaleMark> marks;
    double residual_px = 0.0;  ///< rms distance of the marks from the projective model along the line
};

/// A point of a reference object of known shape (card, paper) in the photo.
struct PlaneMatch {
    PhotoPoint photo_px;
    ObjectPoint object_mm;
};

/// What gives the photo its scale: a ruler, two points by hand, a card, a sheet or a coin.
struct ScaleReference {
    std::string kind;                 ///< "ruler", "two-points", "id1-card", "a4", "letter", "coin"
    std::vector<MarkLine> lines;      ///< the best line first; empty for cards and sheets
    std::vector<PlaneMatch> matches;  ///< corners of cards and sheets; empty for rulers
    std::vector<PhotoPoint>
        outline_px;  ///< polygon around the object, to be kept out of the fabric; may be empty
    double object_relative_std = 0.0;  ///< how far the object itself may be off (rule class, card tolerance)
    std::string object_source;         ///< where that figure comes from
    std::vector<std::string> notes;    ///< what was rejected and why, for the trace
};

}  // namespace ridgetally
