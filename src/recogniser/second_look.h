#pragma once

#include <optional>

#include "recogniser/scan.h"

namespace ridgetally {

/// A reading that another method made, in pixels and directions of the picture.
struct ClaimedReading {
    double stitch_pitch_px = 0.0;
    double row_pitch_px = 0.0;       ///< 0: not known
    double row_direction_rad = 0.0;  ///< of the line of a row; which way up the stitches stand is open

    /// Root of stitch x row pitch, of stitches of the usual height where the rows are not known.
    [[nodiscard]] double pitch_px() const;
};

/// What the network sees where another method claims stitches.
struct SecondLook {
    enum class Verdict {
        confirmed,   ///< stitches of that width along that line
        other_seen,  ///< fabric, but not read like that; or something else that repeats
        unseen       ///< nothing that the network takes for fabric
    };
    Verdict verdict = Verdict::unseen;
    /// Height of a row as it is seen over the claimed one; none where rows are hardly seen.
    std::optional<double> row_ratio;
    double row_score = 0.0;  ///< how clearly they are, 0 to 1
};

/// Looks at the middle of the fabric at the scale that shows the claimed reading best: with the scout, and
/// where that does not see it clearly with the other network, both ways up; one tile where the first confirms
/// it. `picture` and `mask` as for recognise(). A look that was taken before is enough where it saw those
/// stitches and those rows.
[[nodiscard]] SecondLook second_look(const Recogniser& recogniser, const cv::Mat& picture,
                                     const cv::Mat& mask, const ClaimedReading& claim,
                                     const std::optional<Glimpse>& before = std::nullopt);

}  // namespace ridgetally
