#include "unit/disc/drawn_disc.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/random.h"

namespace ridgetally::test {
namespace {

constexpr double overview = 0.5;

bool on_disc(const DrawnDisc& disc, double x, double y) {
    const double dx = x - disc.centre.x;
    const double dy = y - disc.centre.y;
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
            const bool in_shadow =
                std::hypot(dx + disc.shadow_px, y - disc.centre.y) < disc.radius_px && disc.shadow_px > 0.0;
            for (int c = 0; c < 3; ++c) {
                const double table = disc.table[c] * (in_shadow ? 0.55 : 1.0);
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
            if (on_disc(disc, (x + 0.5) / overview - 0.5, (y + 0.5) / overview - 0.5))
                region.mask.at<uchar>(y, x) = 255;
        }
    }
    return region;
}

PhotoFromObject straight_down(double px_per_mm) { return {{px_per_mm, 0, 0, 0, px_per_mm, 0, 0, 0, 1}}; }

}  // namespace ridgetally::test
