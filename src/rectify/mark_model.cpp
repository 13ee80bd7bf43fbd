#include "rectify/mark_model.h"

#include <cmath>

namespace ridgetally {
namespace {

/// Integral of the heading from the anchor to s.
double heading_integral(const Bend& bend, double s) {
    return bend.curvature * s * s / 2.0 + bend.twist * s * s * s / 3.0;
}

/// Integral of half the squared heading: how much shorter the chord is than the tape, to second order.
double shortening(const Bend& bend, double s) {
    const double c = bend.curvature;
    const double t = bend.twist;
    return 0.5 * (c * c * s * s * s / 3.0 + c * t * s * s * s * s / 2.0 + t * t * s * s * s * s * s / 5.0);
}

}  // namespace

std::vector<SeenMark> seen_marks(const MarkLine& line, double correction) {
    std::vector<SeenMark> result;
    result.reserve(line.marks.size());
    for (const auto& mark : line.marks) {
        result.push_back({mark.position_mm * correction,
                          {0.5 * (mark.foot_px.x + mark.tip_px.x), 0.5 * (mark.foot_px.y + mark.tip_px.y)},
                          mark.foot_px,
                          mark.tip_px.x - mark.foot_px.x,
                          mark.tip_px.y - mark.foot_px.y});
    }
    return result;
}

MarkOnObject mark_on_object(double position_mm, const LinePlacement& line, const Bend& bend,
                            double anchor_mm) {
    const double x = line.offset_mm + line.sign * position_mm * (1.0 + line.stretch);
    const double s = x - anchor_mm;
    const double heading = bend.curvature * s + bend.twist * s * s;
    MarkOnObject result;
    result.foot = {anchor_mm + s - shortening(bend, s) - line.across_mm * std::sin(heading),
                   heading_integral(bend, s) + line.across_mm * std::cos(heading)};
    result.across_x = -std::sin(heading + line.skew);
    result.across_y = std::cos(heading + line.skew);
    return result;
}

MarkResidual mark_residual(const SeenMark& mark, const MarkOnObject& object,
                           const PhotoFromObject& photo_from_object) {
    const PhotoPoint foot = photo_from_object(object.foot);
    const PhotoPoint other =
        photo_from_object(ObjectPoint{object.foot.x + object.across_x, object.foot.y + object.across_y});
    double mx = other.x - foot.x;
    double my = other.y - foot.y;
    const double length = std::hypot(mx, my);
    mx /= length;
    my /= length;
    const auto square = [&](double x, double y) { return my * x - mx * y; };
    MarkResidual result;
    result.along = square(mark.middle_px.x - foot.x, mark.middle_px.y - foot.y);
    result.across = mx * (mark.foot_px.x - foot.x) + my * (mark.foot_px.y - foot.y);
    if (mark.has_direction()) result.direction = square(mark.step_x_px, mark.step_y_px);
    return result;
}

}  // namespace ridgetally
