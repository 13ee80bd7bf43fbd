#include "unit/disc/drawn_disc.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/random.h"

namespace ridgetally::test {
namespace {

constexpr double overview = 0.5;

constexpr double strand_px = 14.0;

/// Between the posts of a round of 36 tall stitches.
bool in_hole(const DrawnDisc& disc, double dx, double dy) {
    const double depth = disc.radius_px - strand_px - std::hypot(dx, dy);
    return depth > 0.0 && depth < disc.holes_px && std::cos(36.0 * std::atan2(dy, dx)) > 0.0;
}

/// Joined to the edge at one end.
bool on_arc_tail(const DrawnDisc& disc, double dx, double dy) {
    const double angle = std::atan2(dy, dx);
    if (disc.arc_tail_px <= 0.0 || angle < 0.3 || angle > 1.5) return false;
    const double gap = disc.arc_tail_px * std::min(1.0, (angle - 0.3) / 0.15);
    const double out = std::hypot(dx, dy) - disc.radius_px - gap;
    return out > -1.0 && out < strand_px;
}

bool on_disc(const DrawnDisc& disc, double x, double y) {
    const double dx = x - disc.centre.x;
    const double dy = y - disc.centre.y;
    if (in_hole(disc, dx, dy)) return false;
    if (on_arc_tail(disc, dx, dy)) return true;
    const double edge = disc.radius_px + disc.scallop_px * std::cos(disc.scallops * std::atan2(dy, dx));
    if (std::hypot(dx, dy) <= edge) return true;
    if (std::abs(dy) < 7.0 && dx > 0.0 && dx < disc.radius_px + disc.tail_px) return disc.tail_px > 0.0;
    const double ring = std::hypot(dx, dy - disc.radius_px - 0.8 * disc.loop_px);
    return disc.loop_px > 0.0 && std::abs(ring - disc.loop_px) < 5.0;
}

}  // namespace

Photo drawn(const DrawnDisc& disc) {
    Random random(disc.seed);
    cv::Mat bgr(disc.size, CV_8UC3);
    constexpr int sub = 4;
    for (int y = 0; y < disc.size.height; ++y) {
        for (int x = 0; x < disc.size.width; ++x) {
            int covered = 0;
            for (int k = 0; k < sub * sub; ++k) {
                const double sx = x + (k % sub + 0.5) / sub - 0.5;
                const double sy = y + (k / sub + 0.5) / sub - 0.5;
                covered += on_disc(disc, sx, sy) ? 1 : 0;
            }
            const double part = static_cast<double>(covered) / (sub * sub);
            // Strands: bright and dark bands some pixels wide, as yarn has them.
            const double strands = 0.75 + 0.25 * std::sin(0.7 * x) * std::sin(0.6 * y + 0.02 * x);
            const double dx = x - disc.centre.x;
            const double dy = y - disc.centre.y;
            const bool in_shadow =
                std::hypot(dx + disc.shadow_px, dy) < disc.radius_px && disc.shadow_px > 0.0;
            const bool deep = disc.contact_px > 0.0 && std::hypot(dx, dy) < disc.radius_px + disc.contact_px;
            for (int c = 0; c < 3; ++c) {
                const double table = disc.table[c] * (deep ? 0.4 : in_shadow ? 0.55 : 1.0);
                const double level = part * disc.yarn[c] * strands + (1.0 - part) * table;
                bgr.at<cv::Vec3b>(y, x)[c] = cv::saturate_cast<uchar>(level + random.normal(0.0, 1.5));
            }
        }
    }
    Photo photo = photo_from_pixels(bgr);
    photo.file = "drawn.jpg";
    return photo;
}

FabricRegion region_of(const DrawnDisc& disc) {
    FabricRegion region;
    region.overview_from_photo = overview;
    region.mask =
        cv::Mat::zeros(cvRound(disc.size.height * overview), cvRound(disc.size.width * overview), CV_8U);
    for (int y = 0; y < region.mask.rows; ++y) {
        for (int x = 0; x < region.mask.cols; ++x) {
            const double px = (x + 0.5) / overview - 0.5;
            const double py = (y + 0.5) / overview - 0.5;
            if (on_disc(disc, px, py) || in_hole(disc, px - disc.centre.x, py - disc.centre.y))
                region.mask.at<uchar>(y, x) = 255;
        }
    }
    return region;
}

PhotoFromObject straight_down(double px_per_mm) { return {{px_per_mm, 0, 0, 0, px_per_mm, 0, 0, 0, 1}}; }

}  // namespace ridgetally::test
