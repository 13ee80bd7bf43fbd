#include "rectify/rectify.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/units.h"
#include "rectify/mark_pose.h"
#include "rectify/match_pose.h"

namespace ridgetally {
namespace {

/// Diagonal of the 36 x 24 mm frame that defines the 35 mm equivalent (CIPA DC-008, tag 41989).
constexpr double frame_diagonal_mm = 43.267;

PosePriors priors_for(const ScaleReference& reference, cv::Size size, std::optional<double> focal_px,
                      const RectifyOptions& options) {
    PosePriors priors;
    priors.focal_px = focal_px.value_or(options.assumed_focal_35mm / frame_diagonal_mm *
                                        std::hypot(size.width, size.height));
    priors.focal_source = focal_px ? FocalSource::exif : FocalSource::assumed;
    priors.focal_relative_std =
        focal_px ? options.exif_focal_relative_std : options.assumed_focal_relative_std;
    priors.tilt_std_rad = options.tilt_prior_std_deg / degrees_per_radian;
    priors.principal_px = {0.5 * (size.width - 1), 0.5 * (size.height - 1)};
    // A point set by hand is good to about one pixel of the photo as shown on a screen a thousand pixels
    // wide.
    if (reference.kind == "two-points")
        priors.point_noise_px = std::max(0.5, std::max(size.width, size.height) / 1000.0);
    return priors;
}

double tilt_std_of(const Rectification& r) {
    double sum = 0.0;
    for (const auto& move : independent_moves(r.covariance)) {
        for (const double side : {-0.5, 0.5}) {
            PoseDelta delta{};
            for (std::size_t i = 0; i < delta.size(); ++i) delta[i] = 2.0 * side * move[i];
            const double change = tilt_deg(moved(r.pose, r.reference_middle_mm, delta)) - r.tilt_deg;
            sum += 0.5 * change * change;
        }
    }
    return std::sqrt(sum);
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
    return {"rectify", "no-scale", "The scale reference holds too few marks to measure with.",
            "Take the photo so that at least two numbered marks of the ruler, or all of the card, are seen."};
}

Refusal bad_geometry() {
    return {"rectify", "bad-geometry", "No camera position explains the marks that were found.",
            "Lay the ruler flat beside the fabric and hold the phone straight above both."};
}

bool enough_marks(const ScaleReference& reference) {
    if (reference.lines.empty()) return false;
    const auto& marks = reference.lines.front().marks;
    return marks.size() >= 2 && marks.back().position_mm > marks.front().position_mm;
}

}  // namespace

void describe(Rectification& r, const ScaleReference& reference) {
    r.photo_from_object = photo_from_plane(r.pose, 0.0);
    r.reference_middle_px = r.photo_from_object(r.reference_middle_mm);
    r.tilt_deg = tilt_deg(r.pose);
    r.tilt_std_deg = tilt_std_of(r);
    r.camera_distance_mm = in_camera(r.pose, r.reference_middle_mm)[2];
    r.reference_parts.push_back({"reference object", reference.object_relative_std});
    auto parts = scale_budget_at(r, r.reference_middle_px, 0.0, 0.0, 0.0);
    parts.pop_back();  // the height: the reference's face is the plane itself
    r.px_per_mm =
        measured(px_per_mm_along(r.photo_from_object, r.reference_middle_mm, 1.0, 0.0), std::move(parts));
}

Outcome<Rectification> rectify(const ScaleReference& reference, cv::Size photo_size,
                               std::optional<double> focal_px, const RectifyOptions& options) {
    if (!(options.ruler_correction > 0.0)) throw std::invalid_argument("ruler correction must be positive");
    if (photo_size.width <= 0 || photo_size.height <= 0) throw std::invalid_argument("photo without pixels");
    const bool by_matches = reference.matches.size() >= 4;
    if (!by_matches && !enough_marks(reference)) return no_scale();
    const PosePriors priors = priors_for(reference, photo_size, focal_px, options);
    const PoseEstimate estimate =
        by_matches ? pose_from_matches(reference.matches, reference.object_relative_std, priors)
                   : pose_from_marks(reference.lines, options.ruler_correction, priors);
    if (!estimate.settled || !(estimate.pose.translation_mm[2] > 0.0)) return bad_geometry();
    Rectification result;
    result.pose = estimate.pose;
    result.covariance = estimate.covariance;
    result.reference_middle_mm = estimate.anchor_mm;
    result.notes = estimate.notes;
    if (const double bent = bent_tape_part(estimate, reference); bent > 0.0)
        result.reference_parts.push_back({"bent tape", bent});
    describe(result, reference);
    return result;
}

}  // namespace ridgetally
