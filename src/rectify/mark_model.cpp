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

LineOnObject::LineOnObject(const LinePlacement& line, const Bend& bend, double anchor_mm)
    : line_(line), bend_(bend), anchor_mm_(anchor_mm) {
    if (bend.curvature == 0.0 && bend.twist == 0.0) straight_ = heading(0.0);
}

LineOnObject::Heading LineOnObject::heading(double radians) const {
    return {std::sin(radians), std::cos(radians), std::sin(radians + line_.skew),
            std::cos(radians + line_.skew)};
}

MarkOnObject LineOnObject::mark(double position_mm) const {
    const double x = line_.offset_mm + line_.sign * position_mm * (1.0 + line_.stretch);
    const double s = x - anchor_mm_;
    const Heading way = straight_ ? *straight_ : heading(bend_.curvature * s + bend_.twist * s * s);
    MarkOnObject result;
    result.foot = {anchor_mm_ + s - shortening(bend_, s) - line_.across_mm * way.sine,
                   heading_integral(bend_, s) + line_.across_mm * way.cosine};
    result.across_x = -way.across_sine;
    result.across_y = way.across_cosine;
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
