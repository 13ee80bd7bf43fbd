#pragma once

#include <vector>

#include "core/outcome.h"
#include "rectify/rectification.h"

namespace ridgetally {

/// Which of the two pitches of a fabric a sample is.
enum class PitchKind { stitch, row };

/// The local pitch of the fabric at one place: the step from one stitch to the next along a row, or square to
/// the rows from one row to the next, as the photo shows it.
struct PitchSample {
    PitchKind kind = PitchKind::stitch;
    PhotoPoint at_px;        ///< middle of the step
    double step_x_px = 0.0;  ///< the step in the photo
    double step_y_px = 0.0;
    double relative_std = 0.05;  ///< of the length of the step, noise and unevenness of single stitches
};

/// The same step given in a rectified picture.
[[nodiscard]] PitchSample pitch_sample(PitchKind kind, const RectifiedPoint& at, double step_x, double step_y,
                                       double relative_std, const PhotoFromRectified& photo_from_rectified);

struct RefineTiltOptions {
    /// How far the pitch may really drift from one side of the samples to the other, relative standard
    /// deviation, in each direction and for each kind: makers work tighter at row ends and loosen as they go;
    /// parts of one swatch differ by some 2 % (common practice, no source).
    double drift_relative_std = 0.02;
    /// Fewer samples than this say nothing the drift could not explain.
    std::size_t fewest_samples = 8;
};

struct RefinedTilt {
    Rectification rectification;
    double moved_deg = 0.0;              ///< angle between the old and the new plane
    double chi_square_per_degree = 0.0;  ///< of the samples; far above 1 the fabric is not even
};

/// Lets an even fabric say how its plane is tilted: on the plane at `height_mm` above the reference every
/// stitch has the same width and every row the same height, but for a slow drift. The old pose with its
/// covariance is the prior; px per mm of the reference are held by it, so mostly the tilt moves. Refuses with
/// stage "rectify" and code "too-few-pitches" for fewer samples than `fewest_samples`, and "bad-geometry"
/// where it does not settle.
[[nodiscard]] Outcome<RefinedTilt> refine_tilt(const Rectification& rectification,
                                               const std::vector<PitchSample>& samples, double height_mm,
                                               const RefineTiltOptions& options = {});

}  // namespace ridgetally
