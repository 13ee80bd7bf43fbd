#include "disc/strip.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "disc/rim.h"

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;

/// The outline without its scallops: running median and mean over 15 degrees to either side.
std::vector<double> smooth_rim(const DiscOutline& outline) {
    const int n = static_cast<int>(outline.radius_mm.size());
    const int reach = n / 24;
    const auto median =
        closed_median(outline.radius_mm, std::vector<bool>(outline.radius_mm.size(), true), reach);
    std::vector<double> result(median.size());
    for (int i = 0; i < n; ++i) {
        double sum = 0.0;
        for (int d = -reach; d <= reach; ++d) sum += median[static_cast<std::size_t>((i + d + n) % n)];
        result[static_cast<std::size_t>(i)] = sum / (2 * reach + 1);
    }
    return result;
}

}  // namespace

PhotoPoint RoundStrip::photo_point(double column, double row) const {
    const auto n = static_cast<double>(rim_radius_mm.size());
    const double angle = turn * column / n;
    const double wrapped = column - n * std::floor(column / n);
    const auto i = static_cast<std::size_t>(wrapped) % rim_radius_mm.size();
    const double f = wrapped - std::floor(wrapped);
    const double rim = (1.0 - f) * rim_radius_mm[i] + f * rim_radius_mm[(i + 1) % rim_radius_mm.size()];
    const double radius = rim * (1.0 - (row - rim_row) / px_per_mm / rim_mm);
    return photo_from_plane(
        ObjectPoint{centre_mm.x + radius * std::cos(angle), centre_mm.y + radius * std::sin(angle)});
}

RoundStrip round_strip(const GreyPyramid& photo, const DiscOutline& outline,
                       const RoundStripOptions& options) {
    RoundStrip strip;
    strip.px_per_mm = options.px_per_mm;
    strip.photo_from_plane = outline.photo_from_plane;
    strip.centre_mm = outline.centre_mm;
    const auto rim = smooth_rim(outline);
    double sum = 0.0;
    for (const double r : rim) sum += r;
    strip.rim_mm = sum / static_cast<double>(rim.size());
    strip.rim_row = options.outside_mm * options.px_per_mm;
    const int columns = std::max(32, 2 * static_cast<int>(std::lround(0.5 * turn * options.true_at *
                                                                      strip.rim_mm * options.px_per_mm)));
    const double inside_mm = std::min(options.inside_mm, 0.97 * strip.rim_mm);
    const int rows =
        std::max(8, static_cast<int>(std::lround((options.outside_mm + inside_mm) * options.px_per_mm)));
    for (int x = 0; x < columns; ++x) {
        const double at = static_cast<double>(x) * static_cast<double>(rim.size()) / columns;
        const auto i = static_cast<std::size_t>(at);
        const double f = at - std::floor(at);
        strip.rim_radius_mm.push_back((1.0 - f) * rim[i] + f * rim[(i + 1) % rim.size()]);
    }

    // Where the strip is coarser than the photo, the photo is averaged first so that nothing aliases.
    const double coarser = outline.px_per_mm / options.px_per_mm;
    const cv::Size full = photo.front().size();
    cv::Mat source = photo.front();
    double scale = 1.0;
    if (coarser > 1.0) {
        const cv::Size size(std::max(1, cvRound(full.width / coarser)),
                            std::max(1, cvRound(full.height / coarser)));
        cv::resize(level_of_at_least(photo, std::max(size.width, size.height)), source, size, 0, 0,
                   cv::INTER_AREA);
        scale = static_cast<double>(size.width) / full.width;
    }
    cv::Mat map(rows, columns, CV_32FC2);
    strip.usable = cv::Mat::zeros(rows, columns, CV_8U);
    for (int y = 0; y < rows; ++y) {
        for (int x = 0; x < columns; ++x) {
            const PhotoPoint p = strip.photo_point(x, y);
            map.at<cv::Vec2f>(y, x) = {static_cast<float>((p.x + 0.5) * scale - 0.5),
                                       static_cast<float>((p.y + 0.5) * scale - 0.5)};
            if (p.x >= 0 && p.y >= 0 && p.x <= full.width - 1 && p.y <= full.height - 1)
                strip.usable.at<uchar>(y, x) = 255;
        }
    }
    cv::remap(source, strip.grey, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REFLECT_101);
    strip.grey.convertTo(strip.grey, CV_32F);
    return strip;
}

}  // namespace ridgetally
