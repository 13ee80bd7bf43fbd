#include "gauge/gauge.h"

#include "core/units.h"

namespace ridgetally {
namespace {

constexpr double surface_part = 0.45;
constexpr double surface_std_part = 0.10;

}  // namespace

double SurfaceHeight::correction() const {
    if (camera_distance_mm <= surface_mm || camera_distance_mm <= assumed_mm) return 1.0;
    return (camera_distance_mm - surface_mm) / (camera_distance_mm - assumed_mm);
}

double surface_height_mm(double stitch_width_mm) { return surface_part * stitch_width_mm; }

double surface_height_std_mm(double stitch_width_mm) { return surface_std_part * stitch_width_mm; }

Measured gauge_per_10cm(const Measured& pitch_px, double px_per_mm, const SurfaceHeight& height,
                        const std::vector<Contribution>& scale_budget) {
    const Measured pitch_mm = scaled(pitch_px, height.correction() / px_per_mm);
    return with(reciprocal(span_10cm_mm, pitch_mm), scale_budget);
}

}  // namespace ridgetally
