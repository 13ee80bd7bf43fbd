#include "disc/piece_extent.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/units.h"
#include "image/resample.h"

namespace ridgetally {
namespace {

constexpr double most_lean_rad = 20.0 / degrees_per_radian;

/// One straight run of fabric along a row or column of the raster.
struct Run {
    int at = 0;  ///< row or column
    int from = 0;
    int to = 0;
    [[nodiscard]] int length() const { return to - from + 1; }
};

std::vector<Run> runs_along_rows(const cv::Mat& raster, int first, int last) {
    std::vector<Run> runs;
    for (int y = first; y < last; ++y) {
        const auto* row = raster.ptr<uchar>(y);
        int from = 0;
        int to = raster.cols - 1;
        while (from < raster.cols && row[from] == 0) ++from;
        while (to > from && row[to] == 0) --to;
        if (from < raster.cols) runs.push_back({y, from, to});
    }
    return runs;
}

struct Size {
    double px = 0.0;
    double spread_px = 0.0;
    Run middle;
};

/// Median of the runs, half the distance of their quartiles, and the median run itself.
Size size_of(std::vector<Run> runs) {
    if (runs.empty()) return {};
    std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) { return a.length() < b.length(); });
    const auto at = [&](double part) {
        return runs[static_cast<std::size_t>(part * static_cast<double>(runs.size() - 1))];
    };
    return {static_cast<double>(at(0.5).length()), 0.5 * (at(0.75).length() - at(0.25).length()), at(0.5)};
}

/// Direction of the horizontal of the photo on the plane, and of the piece's own side where it is near that.
double straight(const FabricRegion& region, const PhotoFromObject& photo_from_plane,
                const ObjectFromPhoto& plane_from_photo) {
    const cv::Moments m = cv::moments(region.mask, true);
    const double scale = region.overview_from_photo;
    const PhotoPoint middle{m.m10 / m.m00 / scale, m.m01 / m.m00 / scale};
    const auto direction = [&](double photo_rad) {
        const ObjectPoint a = plane_from_photo(middle);
        const ObjectPoint b = plane_from_photo(
            PhotoPoint{middle.x + 10.0 * std::cos(photo_rad), middle.y + 10.0 * std::sin(photo_rad)});
        return std::atan2(b.y - a.y, b.x - a.x);
    };
    (void)photo_from_plane;
    if (!region.edge_direction_deg) return direction(0.0);
    const double side = std::remainder(*region.edge_direction_deg / degrees_per_radian, CV_PI / 2.0);
    return direction(std::abs(side) <= most_lean_rad ? side : 0.0);
}

}  // namespace

std::optional<PieceExtent> piece_extent(const FabricRegion& region, const PhotoFromObject& photo_from_plane,
                                        std::optional<double> told_turn_rad) {
    const auto plane_from_photo = inverse(photo_from_plane);
    if (!plane_from_photo || cv::countNonZero(region.mask) == 0 || region.outline_px.size() < 3)
        return std::nullopt;
    PieceExtent extent;
    extent.turn_rad = told_turn_rad.value_or(straight(region, photo_from_plane, *plane_from_photo));
    const double c = std::cos(extent.turn_rad);
    const double s = std::sin(extent.turn_rad);
    double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
    for (const auto& corner : region.outline_px) {
        const ObjectPoint p = (*plane_from_photo)(corner);
        left = std::min(left, c * p.x + s * p.y), right = std::max(right, c * p.x + s * p.y);
        top = std::min(top, -s * p.x + c * p.y), bottom = std::max(bottom, -s * p.x + c * p.y);
    }
    constexpr int most_side_px = 1500;
    const double px_per_mm = most_side_px / std::max({right - left, bottom - top, 1.0});
    const Projective<frame::ObjectMm, frame::RectifiedPx> plane_from_raster{
        {c / px_per_mm, -s / px_per_mm, c * left - s * top, s / px_per_mm, c / px_per_mm, s * left + c * top,
         0, 0, 1}};
    const auto photo_from_raster = compose(photo_from_plane, plane_from_raster);
    const double o = region.overview_from_photo;
    const Matrix3 overview_from_photo = {o, 0, 0.5 * o - 0.5, 0, o, 0.5 * o - 0.5, 0, 0, 1};
    cv::Mat raster = resample(
        region.mask, product(overview_from_photo, photo_from_raster.matrix),
        {static_cast<int>((right - left) * px_per_mm) + 1, static_cast<int>((bottom - top) * px_per_mm) + 1});
    cv::threshold(raster, raster, 127, 255, cv::THRESH_BINARY);

    // A tenth at either end is round or ragged.
    const int tenth = raster.rows / 10;
    const Size upper = size_of(runs_along_rows(raster, tenth, raster.rows / 2));
    const Size lower = size_of(runs_along_rows(raster, raster.rows / 2, raster.rows - tenth));
    const Size& width = upper.px > lower.px ? upper : lower;
    const Size height = size_of(runs_along_rows(raster.t(), raster.cols / 4, raster.cols * 3 / 4));
    extent.width_mm = width.px / px_per_mm;
    extent.height_mm = height.px / px_per_mm;
    extent.width_spread_mm = width.spread_px / px_per_mm;
    extent.height_spread_mm = height.spread_px / px_per_mm;
    const auto in_photo = [&](int x, int y) {
        return photo_from_raster(RectifiedPoint{static_cast<double>(x), static_cast<double>(y)});
    };
    extent.width_px = {in_photo(width.middle.from, width.middle.at),
                       in_photo(width.middle.to, width.middle.at)};
    extent.height_px = {in_photo(height.middle.at, height.middle.from),
                        in_photo(height.middle.at, height.middle.to)};
    const ObjectPoint a = (*plane_from_photo)(extent.width_px.front());
    const ObjectPoint b =
        (*plane_from_photo)(PhotoPoint{extent.width_px.front().x + 1.0 / o, extent.width_px.front().y});
    extent.px_mm = std::hypot(b.x - a.x, b.y - a.y);
    return extent;
}

}  // namespace ridgetally
