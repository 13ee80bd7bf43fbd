#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "gauge/gauge.h"

namespace ridgetally {
namespace {

struct Quartiles {
    double low = 0.0;
    double median = 0.0;
    double high = 0.0;
};

Quartiles quartiles(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto at = [&](double q) {
        return values[static_cast<std::size_t>(q * static_cast<double>(values.size() - 1))];
    };
    return {at(0.25), at(0.5), at(0.75)};
}

/// Length of the filled part of every line of the middle 70 % of the raster; the corners are round or ragged.
std::vector<double> run_lengths(const cv::Mat& raster) {
    std::vector<double> lengths;
    for (int y = raster.rows * 15 / 100; y < raster.rows * 85 / 100; ++y) {
        const int count = cv::countNonZero(raster.row(y));
        if (count > 0) lengths.push_back(count);
    }
    return lengths;
}

}  // namespace

std::optional<SwatchExtent> swatch_extent(const PatchSource& source, double row_direction_rad) {
    const auto plane_from_photo = inverse(source.photo_from_plane);
    if (!plane_from_photo || source.region.outline_px.size() < 3) return std::nullopt;
    const double c = std::cos(row_direction_rad);
    const double s = std::sin(row_direction_rad);
    constexpr double raster_px_per_mm = 2.0;
    std::vector<cv::Point2d> turned;
    cv::Point2d low(1e300, 1e300);
    cv::Point2d high(-1e300, -1e300);
    for (const auto& corner : source.region.outline_px) {
        const auto p = (*plane_from_photo)(corner);
        const cv::Point2d q(raster_px_per_mm * (c * p.x + s * p.y), raster_px_per_mm * (-s * p.x + c * p.y));
        low = {std::min(low.x, q.x), std::min(low.y, q.y)};
        high = {std::max(high.x, q.x), std::max(high.y, q.y)};
        turned.push_back(q);
    }
    const double most_side = 8000.0;
    if (!(high.x - low.x < most_side && high.y - low.y < most_side)) return std::nullopt;
    std::vector<cv::Point> polygon;
    for (const auto& q : turned) {
        polygon.emplace_back(static_cast<int>(std::lround(q.x - low.x)),
                             static_cast<int>(std::lround(q.y - low.y)));
    }
    cv::Mat raster =
        cv::Mat::zeros(static_cast<int>(high.y - low.y) + 2, static_cast<int>(high.x - low.x) + 2, CV_8U);
    cv::fillPoly(raster, std::vector<std::vector<cv::Point>>{polygon}, 255);
    const auto along = run_lengths(raster);
    const auto across = run_lengths(raster.t());
    if (along.empty() || across.empty()) return std::nullopt;
    const Quartiles width = quartiles(along);
    const Quartiles height = quartiles(across);
    return SwatchExtent{width.median / raster_px_per_mm, height.median / raster_px_per_mm,
                        0.5 * (width.high - width.low) / raster_px_per_mm,
                        0.5 * (height.high - height.low) / raster_px_per_mm};
}

}  // namespace ridgetally
