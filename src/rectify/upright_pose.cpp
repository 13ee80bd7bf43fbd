#include <cmath>

#include "rectify/mark_pose.h"

namespace ridgetally {
namespace {

/// Straight line through values over positions, least squares.
struct Line {
    double at_anchor = 0.0;
    double slope = 0.0;
};

template <typename Value>
Line line_through(const std::vector<SeenMark>& marks, double anchor, const Value& value) {
    double n = 0.0, s = 0.0, ss = 0.0, v = 0.0, sv = 0.0;
    for (const auto& mark : marks) {
        const double x = mark.position_mm - anchor;
        n += 1.0;
        s += x;
        ss += x * x;
        v += value(mark);
        sv += x * value(mark);
    }
    const double spread = n * ss - s * s;
    const double slope = spread > 0.0 ? (n * sv - s * v) / spread : 0.0;
    return {(v - slope * s) / n, slope};
}

}  // namespace

CameraPose upright_pose(const std::vector<SeenMark>& marks, const ObjectPoint& anchor,
                        const PosePriors& priors) {
    const Line x = line_through(marks, anchor.x, [](const SeenMark& m) { return m.foot_px.x; });
    const Line y = line_through(marks, anchor.x, [](const SeenMark& m) { return m.foot_px.y; });
    const double px_per_mm = std::hypot(x.slope, y.slope);
    const double c = x.slope / px_per_mm;
    const double s = y.slope / px_per_mm;
    CameraPose pose;
    pose.focal_px = priors.focal_px;
    pose.focal_source = priors.focal_source;
    pose.principal_px = priors.principal_px;
    pose.rotation = {c, -s, 0, s, c, 0, 0, 0, 1};
    const double depth = priors.focal_px / px_per_mm;
    const Vector3 target = {(x.at_anchor - priors.principal_px.x) / px_per_mm,
                            (y.at_anchor - priors.principal_px.y) / px_per_mm, depth};
    const Vector3 turned = in_camera(pose, anchor);
    for (std::size_t i = 0; i < 3; ++i) pose.translation_mm[i] = target[i] - turned[i];
    return pose;
}

}  // namespace ridgetally
