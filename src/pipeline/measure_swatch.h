#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "core/outcome.h"
#include "core/stitch.h"
#include "image/photo.h"
#include "pipeline/recogniser_on_demand.h"
#include "pipeline/swatch_result.h"
#include "pipeline/trace.h"

namespace ridgetally {

/// Two points of the upright photo and their true distance, given by hand.
struct TwoPointScale {
    PhotoPoint from_px;
    PhotoPoint to_px;
    double length_mm = 0.0;
};

/// Which object gives the scale. Default: a ruler or tape.
struct ScaleOptions {
    std::optional<LengthUnit> unit;           ///< told, where the marks alone do not decide
    std::optional<TwoPointScale> two_points;  ///< instead of a ruler
    std::optional<std::string>
        flat_reference;             ///< "id1-card", "a4", "letter", "coin:DIAMETER" instead of a ruler
    double ruler_correction = 1.0;  ///< true length over nominal length of the ruler or tape
};

/// A textured pattern: so many stitches by so many rows make one repeat.
struct PatternRepeat {
    int stitches = 1;
    int rows = 1;
};

struct SwatchOptions {
    ScaleOptions scale;
    std::optional<StitchFamily> stitch;  ///< told; recognised where not
    std::optional<Worked> worked;        ///< told; recognised where not
    std::vector<PhotoPoint> area_px;     ///< measure inside this polygon only; empty: the fabric is found
    std::optional<double>
        row_direction_deg;                ///< of a row in the photo, 0 = left to right, clockwise, good to 15
    std::optional<PatternRepeat> repeat;  ///< what one visible repeat is made of
    std::optional<double> fabric_thickness_mm;  ///< height of the fabric's surface above the table
    std::optional<double> ruler_thickness_mm;   ///< height of the ruler's face above the table
    /// Accepted by the maker: the rival of this number, from 1 in the order of SwatchResult::rivals of the
    /// result without it and with all else the same.
    std::optional<int> reading;
};

/// What of the scale was set by hand: "unit", "scale".
[[nodiscard]] std::vector<std::string> corrected_of(const ScaleOptions& options);

/// What every measurement needs besides the photo; loaded once, shared by all photos of a batch.
struct Knowledge {
    Catalog catalog;
    RecogniserOnDemand recogniser;  ///< asked for only where the plain method is not enough
};

/// Reads facts and weights from the models folder.
[[nodiscard]] Outcome<Knowledge> load_knowledge();

/// Reads the scale reference alone.
[[nodiscard]] Outcome<ScaleReport> measure_scale(const Photo& photo, const Catalog& catalog,
                                                 const ScaleOptions& options, Trace& trace);

/// Photo in, gauge out: the one place that knows the order of the stages.
[[nodiscard]] Outcome<SwatchResult> measure_swatch(const Photo& photo, const Knowledge& knowledge,
                                                   const SwatchOptions& options, Trace& trace);

/// Several photos of the same swatch as one result: weighted means, a warning where they disagree. The
/// overlay, photo and scale are those of the first. Throws std::invalid_argument for an empty list.
[[nodiscard]] SwatchResult combine(const std::vector<SwatchResult>& results);

}  // namespace ridgetally
