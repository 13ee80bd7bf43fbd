#pragma once

#include <optional>
#include <vector>

#include "core/outcome.h"
#include "pipeline/measure_swatch.h"

namespace ridgetally {

/// `ridgetally piece`: a finished piece lying flat, upright in the photo.
struct PieceResult {
    PhotoFacts photo;
    std::vector<PhotoFacts> photos;  ///< as in SwatchResult
    ScaleResult scale;
    Measured width_mm;
    Measured height_mm;                  ///< of a hat: from brim to crown
    Measured circumference_flat_mm;      ///< of a hat lying flat: twice its width
    std::vector<std::string> corrected;  ///< set by hand: "unit", "scale", "area", "width-direction"
    std::vector<Warning> warnings;
    std::vector<PhotoPoint> outline_px;
    std::vector<PhotoCurve> lines;  ///< along which width and height were taken
};

struct PieceOptions {
    ScaleOptions scale;
    std::vector<PhotoPoint> area_px;
    std::optional<double> width_direction_deg;  ///< of the width in the photo, 0 = left to right, clockwise
    std::optional<double> piece_thickness_mm;   ///< height of the piece's top above the table
    std::optional<double> ruler_thickness_mm;
};

/// Photo in, sizes out. Refuses (stage "piece") with "cut-off" where the frame cuts the piece.
[[nodiscard]] Outcome<PieceResult> measure_piece(const Photo& photo, const Knowledge& knowledge,
                                                 const PieceOptions& options, Trace& trace);

/// Several photos of the same piece as one result, as for swatches.
[[nodiscard]] PieceResult combine_pieces(const std::vector<PieceResult>& results);

}  // namespace ridgetally
