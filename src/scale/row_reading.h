#pragma once

#include <optional>
#include <vector>

#include "scale/comb_track.h"
#include "scale/index_model.h"
#include "scale/mark_measure.h"
#include "scale/strip.h"

namespace ridgetally {

/// A row of strokes ready to be measured: the strip it lies in and where its strokes are expected.
struct RowReading {
    Strip strip;
    MarkBand band;
    IndexModel model;             ///< u by running index; whole numbers lie on dark strokes
    std::vector<Sample> leaning;  ///< what the model leaves over, u by index: bends of the ruler, the lens
    int first = 0;                ///< range of whole indices inside the photo
    int last = 0;

    [[nodiscard]] double position(double index) const;
};

/// Tracks the comb once more in a strip wide enough for the longest marks. None where it is lost.
[[nodiscard]] std::optional<RowReading> row_reading(const GreyPyramid& pyramid, const StripFrame& frame,
                                                    const TrackOptions& options);

/// Marks of the row's finest comb: where strokes stand between the strokes that were followed (the longer
/// marks of a finer rule) the indices are refined; where only every n-th index carries one they are thinned
/// out.
[[nodiscard]] std::vector<MeasuredMark> finest_marks(const RowReading& reading, Polarity polarity);

}  // namespace ridgetally
