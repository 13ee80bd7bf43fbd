#pragma once

#include <cmath>

#include "core/random.h"
#include "core/units.h"
#include "rectify/camera_pose.h"
#include "rectify/rectify.h"

namespace ridgetally::testing {

/// A camera over a table, as a photographer would describe it. All invented.
struct CameraPlace {
    cv::Size photo_size = {1600, 1200};
    double focal_35mm = 26.0;
    double distance_mm = 400.0;    ///< of the anchor, along the optical axis
    double tilt_along_deg = 0.0;   ///< about the object's y axis
    double tilt_across_deg = 0.0;  ///< about the object's x axis
    double turn_deg = 0.0;         ///< of the object's x axis in the photo
    ObjectPoint anchor_mm;
    PhotoPoint anchor_px = {800.0, 600.0};
};

inline double focal_of(const CameraPlace& place) {
    return place.focal_35mm / 43.267 * std::hypot(place.photo_size.width, place.photo_size.height);
}

inline CameraPose camera_at(const CameraPlace& place) {
    CameraPose pose;
    pose.focal_px = focal_of(place);
    pose.principal_px = {0.5 * (place.photo_size.width - 1), 0.5 * (place.photo_size.height - 1)};
    const double a = place.turn_deg / degrees_per_radian;
    pose.rotation = {std::cos(a), -std::sin(a), 0, std::sin(a), std::cos(a), 0, 0, 0, 1};
    const double px_per_mm = pose.focal_px / place.distance_mm;
    pose.translation_mm = {(place.anchor_px.x - pose.principal_px.x) / px_per_mm,
                           (place.anchor_px.y - pose.principal_px.y) / px_per_mm, place.distance_mm};
    const Vector3 shifted = in_camera(pose, {-place.anchor_mm.x, -place.anchor_mm.y});
    pose.translation_mm = shifted;
    PoseDelta tilt{};
    tilt[about_x] = place.tilt_across_deg / degrees_per_radian;
    tilt[about_y] = place.tilt_along_deg / degrees_per_radian;
    return moved(pose, place.anchor_mm, tilt);
}

/// A graduation to be photographed.
struct Graduation {
    LengthUnit unit = LengthUnit::mm;
    double first_mm = 10.0;
    double last_mm = 160.0;
    double spacing_mm = 1.0;
    double across_mm = 0.0;
    double sign = 1.0;            ///< -1: positions run against x
    double mark_length_mm = 4.0;  ///< towards +y; negative towards -y
    double skew = 0.0;            ///< of the marks from square to the line, radians
    double stretch = 0.0;         ///< relative error of the printed length
    double noise_px = 0.2;        ///< of each end, each way
};

inline MarkLine photographed(const Graduation& g, const CameraPose& camera, Random& random) {
    const PhotoFromObject project = photo_from_plane(camera, 0.0);
    MarkLine line;
    line.unit = g.unit;
    line.spacing_mm = g.spacing_mm;
    const int count = static_cast<int>(std::floor((g.last_mm - g.first_mm) / g.spacing_mm + 1e-9));
    for (int i = 0; i <= count; ++i) {
        ScaleMark mark;
        mark.position_mm = g.first_mm + i * g.spacing_mm;
        double x = g.sign > 0 ? mark.position_mm : g.first_mm + g.last_mm - mark.position_mm;
        x += g.stretch * (x - g.first_mm);
        const double length = g.mark_length_mm * (i % 10 == 0 ? 2.0 : i % 5 == 0 ? 1.5 : 1.0);
        const auto noisy = [&](double y) {
            const PhotoPoint p = project(ObjectPoint{x - g.skew * (y - g.across_mm), y});
            return PhotoPoint{p.x + random.normal(0.0, g.noise_px), p.y + random.normal(0.0, g.noise_px)};
        };
        mark.foot_px = noisy(g.across_mm);
        mark.tip_px = g.mark_length_mm == 0.0 ? mark.foot_px : noisy(g.across_mm + length);
        line.marks.push_back(mark);
    }
    return line;
}

inline ScaleReference ruler_of(std::vector<MarkLine> lines) {
    ScaleReference reference;
    reference.kind = "ruler";
    reference.lines = std::move(lines);
    return reference;
}

}  // namespace ridgetally::testing
