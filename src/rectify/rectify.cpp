#include "rectify/rectify.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/units.h"
#include "rectify/describe.h"
#include "rectify/mark_pose.h"
#include "rectify/match_pose.h"

namespace ridgetally {
namespace {

/// Diagonal of the 36 x 24 mm frame that defines the 35 mm equivalent (CIPA DC-008, tag 41989).
constexpr double frame_diagonal_mm = 43.267;

PosePriors priors_for(cv::Size size, std::optional<double> focal_px, const RectifyOptions& options) {
    PosePriors priors;
    priors.focal_px = focal_px.value_or(options.assumed_focal_35mm / frame_diagonal_mm *
                                        std::hypot(size.width, size.height));
    priors.focal_source = focal_px ? FocalSource::exif : FocalSource::assumed;
    priors.focal_relative_std =
        focal_px ? options.exif_focal_relative_std : options.assumed_focal_relative_std;
    priors.tilt_std_rad = options.tilt_prior_std_deg / degrees_per_radian;
    priors.principal_px = {0.5 * (size.width - 1), 0.5 * (size.height - 1)};
    return priors;
}

/// A tape bent in its own plane is longer on one edge than on the other: curvature times half its width each
/// way. 20 mm is the usual width of a dressmaker's tape (common practice, no source).
double bent_tape_part(const PoseEstimate& estimate, const ScaleReference& reference) {
    constexpr double half_width_mm = 10.0;
    if (reference.lines.empty()) return 0.0;
    const auto& marks = reference.lines.front().marks;
    const double half_length = 0.5 * (marks.back().position_mm - marks.front().position_mm);
    return half_width_mm *
           (std::abs(estimate.bend.curvature) + 2.0 * std::abs(estimate.bend.twist) * half_length);
}

Refusal no_scale() {
    return {"rectify", "no-scale", "the scale reference holds too few marks to measure with",
            "take the photo so that at least two numbered marks of the ruler, or all of the card, are seen"};
}

Refusal bad_geometry() {
    return {"rectify", "bad-geometry", "no camera position explains the marks that were found",
            "lay the ruler flat beside the fabric and hold the phone straight above both"};
}

bool enough_marks(const ScaleReference& reference) {
    if (reference.lines.empty()) return false;
    const auto& marks = reference.lines.front().marks;
    return marks.size() >= 2 && marks.back().position_mm > marks.front().position_mm;
}

}  // namespace

Outcome<Rectification> rectify(const ScaleReference& reference, cv::Size photo_size,
                               std::optional<double> focal_px, const RectifyOptions& options) {
    if (!(options.ruler_correction > 0.0)) throw std::invalid_argument("ruler correction must be positive");
    if (photo_size.width <= 0 || photo_size.height <= 0) throw std::invalid_argument("photo without pixels");
    const bool by_matches = reference.matches.size() >= 4;
    if (!by_matches && !enough_marks(reference)) return no_scale();
    const PosePriors priors = priors_for(photo_size, focal_px, options);
    const PoseEstimate estimate =
        by_matches ? pose_from_matches(reference.matches, reference.object_relative_std, priors)
                   : pose_from_marks(reference.lines, options.ruler_correction, priors);
    if (!estimate.settled || !(estimate.pose.translation_mm[2] > 0.0)) return bad_geometry();
    Rectification result;
    result.pose = estimate.pose;
    result.covariance = estimate.covariance;
    result.reference_middle_mm = estimate.anchor_mm;
    result.notes = estimate.notes;
    result.reference_parts.push_back({"reference object", reference.object_relative_std});
    if (estimate.uneven_relative_std > 0.0)
        result.reference_parts.push_back({"uneven marks", estimate.uneven_relative_std});
    if (const double bent = bent_tape_part(estimate, reference); bent > 0.0)
        result.reference_parts.push_back({"bent tape", bent});
    describe(result);
    return result;
}

}  // namespace ridgetally
