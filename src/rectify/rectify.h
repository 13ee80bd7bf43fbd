#pragma once

#include <opencv2/core.hpp>
#include <optional>

#include "core/outcome.h"
#include "rectify/rectification.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// What is known, or assumed, besides the reference itself.
struct RectifyOptions {
    /// True length over nominal length of the ruler or tape, from a comparison with a better rule.
    double ruler_correction = 1.0;
    /// 35 mm equivalent focal length taken where the photo tells none. Main cameras of phones lie at 23 to
    /// 28 mm (common practice, no source).
    double assumed_focal_35mm = 26.0;
    /// Relative standard uncertainty of that assumption: 95 of 100 photos between 17 and 39 mm.
    double assumed_focal_relative_std = 0.2;
    /// Of a focal length from EXIF: the tag is a whole number of mm (CIPA DC-008, tag 41989), 2 % either way
    /// at 24 mm; where a maker takes the 36 mm of the width for the diagonal's 43.3 mm, a 4:3 frame is off by
    /// 4 %.
    double exif_focal_relative_std = 0.04;
    /// What a hand-held phone over a table leaves before anything is measured, per axis; 2.45 of these is the
    /// radius that holds 95 of 100 photos, 20 degrees (assumption).
    double tilt_prior_std_deg = 8.0;
};

/// Fits the camera over the plane of the reference: for marks, their spacing and the convergence of their
/// directions; for corners of a card or sheet, their homography; for two points alone, straight down with the
/// tilt unknown. `focal_px` of the upright photo, none where the photo does not tell.
/// Refuses with the code "no-scale" where the reference holds fewer than two marks and four corners, and with
/// "bad-geometry" where no camera explains them. Throws std::invalid_argument for a correction or photo size
/// that is not positive.
[[nodiscard]] Outcome<Rectification> rectify(const ScaleReference& reference, cv::Size photo_size,
                                             std::optional<double> focal_px,
                                             const RectifyOptions& options = {});

}  // namespace ridgetally
