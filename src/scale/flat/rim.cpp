#include "scale/flat/rim.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/median.h"
#include "scale/flat/edge_line.h"

namespace ridgetally {
namespace {

/// Conic a x^2 + b x y + c y^2 + d x + e y + f.
using Conic = cv::Vec<double, 6>;

/// Halir and Flusser's form of the constrained fit: scatter matrices of the quadratic and the linear part.
std::optional<Conic> conic_through(const std::vector<cv::Point2d>& points,
                                   const std::vector<double>& weights) {
    cv::Matx33d s1 = cv::Matx33d::zeros(), s2 = cv::Matx33d::zeros(), s3 = cv::Matx33d::zeros();
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double x = points[i].x, y = points[i].y, w = weights[i];
        const cv::Vec3d quadratic(x * x, x * y, y * y), linear(x, y, 1.0);
        s1 += w * (quadratic * quadratic.t());
        s2 += w * (quadratic * linear.t());
        s3 += w * (linear * linear.t());
    }
    if (cv::determinant(s3) == 0.0) return std::nullopt;
    const cv::Matx33d t = -(s3.inv() * s2.t());
    const cv::Matx33d m = s1 + s2 * t;
    const cv::Matx33d reduced(m(2, 0) / 2, m(2, 1) / 2, m(2, 2) / 2, -m(1, 0), -m(1, 1), -m(1, 2),
                              m(0, 0) / 2, m(0, 1) / 2, m(0, 2) / 2);
    cv::Mat values, vectors;
    cv::eigenNonSymmetric(cv::Mat(reduced), values, vectors);
    for (int i = 0; i < vectors.rows; ++i) {
        const cv::Vec3d v(vectors.at<double>(i, 0), vectors.at<double>(i, 1), vectors.at<double>(i, 2));
        if (4 * v[0] * v[2] - v[1] * v[1] <= 0.0) continue;
        const cv::Vec3d rest = t * v;
        return Conic(v[0], v[1], v[2], rest[0], rest[1], rest[2]);
    }
    return std::nullopt;
}

std::optional<Rim> rim_of(const Conic& q) {
    const double turn = 4 * q[0] * q[2] - q[1] * q[1];
    if (turn <= 0.0) return std::nullopt;
    const cv::Point2d middle((q[1] * q[4] - 2 * q[2] * q[3]) / turn, (q[1] * q[3] - 2 * q[0] * q[4]) / turn);
    const double at_middle = q[0] * middle.x * middle.x + q[1] * middle.x * middle.y +
                             q[2] * middle.y * middle.y + q[3] * middle.x + q[4] * middle.y + q[5];
    const double mean = 0.5 * (q[0] + q[2]);
    const double spread = std::hypot(0.5 * (q[0] - q[2]), 0.5 * q[1]);
    const double short_squared = -at_middle / (mean + spread), long_squared = -at_middle / (mean - spread);
    double half_a = mean > 0 ? long_squared : short_squared, half_b = mean > 0 ? short_squared : long_squared;
    if (!(half_a > 0.0) || !(half_b > 0.0)) return std::nullopt;
    // The longer axis lies along the eigenvector of the smaller curvature.
    const double sign = mean > 0 ? 1.0 : -1.0;
    const double angle = 0.5 * std::atan2(-sign * q[1], -sign * (q[0] - q[2]));
    Rim rim;
    rim.middle = middle;
    rim.half_long_px = std::sqrt(half_a);
    rim.half_short_px = std::sqrt(half_b);
    rim.along_long = {std::cos(angle), std::sin(angle)};
    return rim;
}

/// Signed distance of a point from the rim, along the line to its middle.
double distance_from(const Rim& rim, const cv::Point2d& p) {
    const cv::Point2d from = p - rim.middle;
    const double x = from.dot(rim.along_long) / rim.half_long_px;
    const double y = from.dot(cv::Point2d(-rim.along_long.y, rim.along_long.x)) / rim.half_short_px;
    const double size = std::hypot(x, y);
    return size > 0.0 ? cv::norm(from) * (1.0 - 1.0 / size) : -rim.half_short_px;
}

}  // namespace

std::optional<Rim> ellipse_through(const std::vector<cv::Point2d>& points) {
    if (points.size() < 6) return std::nullopt;
    cv::Point2d middle;
    for (const auto& p : points) middle += p * (1.0 / static_cast<double>(points.size()));
    double scale = 0.0;
    for (const auto& p : points) scale += cv::norm(p - middle) / static_cast<double>(points.size());
    if (!(scale > 0.0)) return std::nullopt;
    std::vector<cv::Point2d> unit;
    for (const auto& p : points) unit.push_back((p - middle) * (1.0 / scale));
    std::vector<double> weights(points.size(), 1.0);
    std::optional<Rim> rim;
    for (int round = 0; round < 8; ++round) {
        const auto conic = conic_through(unit, weights);
        rim = conic ? rim_of(*conic) : std::nullopt;
        if (!rim) return std::nullopt;
        std::vector<double> sizes;
        for (const auto& p : unit) sizes.push_back(std::abs(distance_from(*rim, p)));
        const double reach = 4.685 * std::max(0.1 / scale, mad_to_std * median_of(sizes));
        for (std::size_t i = 0; i < unit.size(); ++i) {
            const double rest = 1.0 - (sizes[i] / reach) * (sizes[i] / reach);
            weights[i] = sizes[i] < reach ? rest * rest : 0.0;
        }
    }
    rim->middle = middle + rim->middle * scale;
    rim->half_long_px *= scale;
    rim->half_short_px *= scale;
    return rim;
}

std::optional<Rim> follow_rim(const cv::Mat& bgr, const cv::Point2d& middle, double radius_px,
                              double reach_px) {
    const int count = std::clamp(static_cast<int>(2.0 * std::numbers::pi * radius_px / 2.0), 48, 400);
    std::vector<EdgeProbe> probes;
    for (int i = 0; i < count; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / count;
        const cv::Point2d out(std::cos(angle), std::sin(angle));
        probes.push_back({middle + out * radius_px, out});
    }
    EdgeOptions options;
    options.reach_px = reach_px;
    const auto hits = find_edges(bgr, probes, options);
    std::vector<cv::Point2d> points;
    std::vector<double> contrasts;
    for (std::size_t i = 0; i < hits.size(); ++i) {
        if (!hits[i]) continue;
        points.push_back(probes[i].at + probes[i].outward * hits[i]->offset_px);
        contrasts.push_back(hits[i]->contrast);
    }
    if (points.size() * 2 < probes.size()) return std::nullopt;
    auto rim = ellipse_through(points);
    if (!rim) return std::nullopt;
    const double near_px = std::max(1.0, 0.01 * radius_px);
    int on_rim = 0;
    double squares = 0.0;
    for (const auto& p : points) {
        const double off = distance_from(*rim, p);
        if (std::abs(off) > near_px) continue;
        squares += off * off;
        ++on_rim;
    }
    if (on_rim * 2 < count) return std::nullopt;
    rim->support = static_cast<double>(on_rim) / count;
    rim->spread_px = std::sqrt(squares / on_rim);
    rim->contrast = median_of(std::move(contrasts));
    return rim;
}

}  // namespace ridgetally
