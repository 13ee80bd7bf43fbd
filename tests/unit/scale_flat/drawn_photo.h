#pragma once

#include <cmath>
#include <functional>
#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include "core/random.h"
#include "image/photo.h"
#include "unit/rectify/made_up_camera.h"

namespace ridgetally::testing {

/// Colour (B, G, R) of a point of the table, mm.
using TableTop = std::function<cv::Vec3d(const ObjectPoint&)>;

/// What the camera sees of the table, by the inverse map, four rays a pixel; then lens blur and sensor noise.
inline Photo drawn(const TableTop& table, const CameraPose& camera, const cv::Size& size, double noise,
                   std::uint64_t seed) {
    const ObjectFromPhoto back = *inverse(photo_from_plane(camera, 0.0));
    cv::Mat picture(size, CV_8UC3);
    for (int y = 0; y < size.height; ++y) {
        for (int x = 0; x < size.width; ++x) {
            cv::Vec3d sum;
            for (const double dy : {-0.25, 0.25})
                for (const double dx : {-0.25, 0.25}) sum += table(back(PhotoPoint{x + dx, y + dy})) / 4.0;
            picture.at<cv::Vec3b>(y, x) =
                cv::Vec3b(cv::saturate_cast<uchar>(sum[0]), cv::saturate_cast<uchar>(sum[1]),
                          cv::saturate_cast<uchar>(sum[2]));
        }
    }
    cv::GaussianBlur(picture, picture, cv::Size(0, 0), 0.8);
    Random random(seed);
    for (int y = 0; y < size.height; ++y)
        for (int x = 0; x < size.width; ++x)
            for (int c = 0; c < 3; ++c) {
                auto& value = picture.at<cv::Vec3b>(y, x)[c];
                value = cv::saturate_cast<uchar>(value + random.normal(0.0, noise));
            }
    return photo_from_pixels(picture);
}

/// Planks: brightness changes along y, with seams.
inline cv::Vec3d wood(const ObjectPoint& p) {
    const double grain = 8.0 * std::sin(p.y * 0.9 + 2.0 * std::sin(p.x * 0.02)) + 5.0 * std::sin(p.y * 2.3);
    const double seam = std::fmod(std::abs(p.y + 400.0), 90.0) < 1.2 ? -45.0 : 0.0;
    return cv::Vec3d(70, 105, 150) + cv::Vec3d(1, 1, 1) * (grain + seam);
}

/// A knobbly fabric patch: dots on a lattice.
inline cv::Vec3d fabric(const ObjectPoint& p) {
    const double shade = 45.0 * std::cos(2 * CV_PI * p.x / 5.0) * std::cos(2 * CV_PI * p.y / 4.6);
    return cv::Vec3d(120, 60, 150) + cv::Vec3d(1, 1, 1) * shade;
}

inline bool in_box(const ObjectPoint& p, double x, double y, double w, double h) {
    return p.x >= x && p.y >= y && p.x <= x + w && p.y <= y + h;
}

/// A rectangle with rounded corners, its first corner at the origin.
inline bool in_card(const ObjectPoint& p, double w, double h, double radius) {
    if (!in_box(p, 0, 0, w, h)) return false;
    const double dx = std::max({radius - p.x, p.x - (w - radius), 0.0});
    const double dy = std::max({radius - p.y, p.y - (h - radius), 0.0});
    return std::hypot(dx, dy) <= radius;
}

}  // namespace ridgetally::testing
