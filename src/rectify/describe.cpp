#include "rectify/describe.h"

#include <cmath>

namespace ridgetally {
namespace {

/// From moves as far as the ends of a 95 % interval: a focal length that was assumed is so uncertain that the
/// tilt does not follow it in proportion.
double tilt_std_of(const Rectification& r) {
    double sum = 0.0;
    for (const auto& move : independent_moves(r.covariance)) {
        for (const double side : {-coverage_factor_95, coverage_factor_95}) {
            PoseDelta delta{};
            for (std::size_t i = 0; i < delta.size(); ++i) delta[i] = side * move[i];
            const double change = tilt_deg(moved(r.pose, r.reference_middle_mm, delta)) - r.tilt_deg;
            sum += 0.5 * change * change;
        }
    }
    return std::sqrt(sum) / coverage_factor_95;
}

}  // namespace

void describe(Rectification& r) {
    r.photo_from_object = photo_from_plane(r.pose, 0.0);
    r.reference_middle_px = r.photo_from_object(r.reference_middle_mm);
    r.tilt_deg = tilt_deg(r.pose);
    r.tilt_std_deg = tilt_std_of(r);
    r.camera_distance_mm = in_camera(r.pose, r.reference_middle_mm)[2];
    auto parts = scale_budget_at(r, r.reference_middle_px, 0.0, 0.0, 0.0);
    parts.pop_back();  // the height: the reference's face is the plane itself
    r.px_per_mm =
        measured(px_per_mm_along(r.photo_from_object, r.reference_middle_mm, 1.0, 0.0), std::move(parts));
}

}  // namespace ridgetally
