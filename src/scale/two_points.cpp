#include "scale/two_points.h"

#include <cmath>
#include <stdexcept>

namespace ridgetally {
namespace {

constexpr double setting_std_px = 0.5;
constexpr double least_apart_px = 20.0;

}  // namespace

Outcome<ScaleReference> two_points_reference(const PhotoPoint& from_px, const PhotoPoint& to_px,
                                             double length_mm) {
    if (!(length_mm > 0.0)) throw std::invalid_argument("two_points_reference: the length must be positive");
    const double apart = std::hypot(to_px.x - from_px.x, to_px.y - from_px.y);
    if (!(apart >= least_apart_px))
        return Refusal{"scale", "points-too-close", "the two points of the scale are too close to each other",
                       "give two points as far apart as the photo allows, and their distance"};
    ScaleReference reference;
    reference.kind = "two-points";
    MarkLine line;
    line.spacing_mm = length_mm;
    line.marks = {{0.0, from_px, from_px}, {length_mm, to_px, to_px}};
    reference.lines.push_back(line);
    reference.object_relative_std = std::sqrt(2.0) * setting_std_px / apart;
    reference.object_source = "two points set by hand, half a pixel each";
    return reference;
}

}  // namespace ridgetally
