#include "gauge/gauge.h"

#include <cmath>

#include "core/units.h"

namespace ridgetally {
namespace {

constexpr double middle_part = 0.45;
constexpr double top_part = 0.90;

}  // namespace

double SurfaceHeight::correction() const {
    if (camera_distance_mm <= surface_mm || camera_distance_mm <= assumed_mm) return 1.0;
    return (camera_distance_mm - surface_mm) / (camera_distance_mm - assumed_mm);
}

double surface_height_mm(double stitch_width_mm) { return 0.5 * (middle_part + top_part) * stitch_width_mm; }

double surface_height_std_mm(double stitch_width_mm) {
    return (top_part - middle_part) / std::sqrt(12.0) * stitch_width_mm;
}

Measured gauge_per_10cm(const Measured& pitch_px, double px_per_mm, const SurfaceHeight& height,
                        const std::vector<Contribution>& scale_budget) {
    const Measured pitch_mm = scaled(pitch_px, height.correction() / px_per_mm);
    return with(reciprocal(span_10cm_mm, pitch_mm), scale_budget);
}

}  // namespace ridgetally
