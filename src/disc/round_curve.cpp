#include "disc/round_curve.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/core.hpp>
#include <optional>
#include <stdexcept>

#include "core/median.h"
#include "core/random.h"

namespace ridgetally {
namespace {

constexpr double biweight = 4.685;  // 95 % efficiency under the normal law

struct Polar {
    double angle = 0.0;
    double distance = 0.0;
};

Polar polar(const ObjectPoint& p, const ObjectPoint& centre) {
    return {std::atan2(p.y - centre.y, p.x - centre.x), std::hypot(p.x - centre.x, p.y - centre.y)};
}

std::vector<double> residuals(const std::vector<ObjectPoint>& points, const RoundCurve& curve) {
    std::vector<double> result;
    for (const auto& p : points) {
        const Polar at = polar(p, curve.centre_mm);
        result.push_back(at.distance - curve.radius_at(at.angle));
    }
    return result;
}

double robust_std(const std::vector<double>& values) {
    std::vector<double> sizes;
    for (const double v : values) sizes.push_back(std::abs(v));
    return mad_to_std * median_of(std::move(sizes));
}

/// First guess that a tail or a missing arc does not rule: the middle of opposite points where there are any.
RoundCurve start_of(const std::vector<ObjectPoint>& points) {
    std::vector<double> xs;
    std::vector<double> ys;
    for (const auto& p : points) {
        xs.push_back(p.x);
        ys.push_back(p.y);
    }
    RoundCurve curve;
    const auto [x0, x1] = std::minmax_element(xs.begin(), xs.end());
    const auto [y0, y1] = std::minmax_element(ys.begin(), ys.end());
    curve.centre_mm = {0.25 * (*x0 + *x1) + 0.5 * median_of(xs), 0.25 * (*y0 + *y1) + 0.5 * median_of(ys)};
    std::vector<double> distances;
    for (const auto& p : points) distances.push_back(polar(p, curve.centre_mm).distance);
    curve.radius_mm = median_of(std::move(distances));
    return curve;
}

/// The circle through three points; none where they lie on a line.
std::optional<RoundCurve> through(const ObjectPoint& a, const ObjectPoint& b, const ObjectPoint& c) {
    const double bx = b.x - a.x;
    const double by = b.y - a.y;
    const double cx = c.x - a.x;
    const double cy = c.y - a.y;
    const double cross = 2.0 * (bx * cy - by * cx);
    const double b2 = bx * bx + by * by;
    const double c2 = cx * cx + cy * cy;
    if (std::abs(cross) <= 1e-9 * (b2 + c2)) return std::nullopt;
    const double x = (cy * b2 - by * c2) / cross;
    const double y = (bx * c2 - cx * b2) / cross;
    RoundCurve curve;
    curve.centre_mm = {a.x + x, a.y + y};
    curve.radius_mm = std::hypot(x, y);
    return curve;
}

/// Of the first guess and of circles through three points each, the one that half of the points lie nearest
/// to (least median of squares: P. Rousseeuw, J. American Statistical Association 79, 1984): right as long as
/// more than half of them belong to the circle.
RoundCurve consensus(const std::vector<ObjectPoint>& points) {
    // With half of the points off the circle, one of sixty circles misses all of those but in 3 of 10,000
    // fits.
    constexpr int circles = 60;
    Random random(1);
    RoundCurve best = start_of(points);
    double least = robust_std(residuals(points, best));
    const auto any = [&] {
        return points[static_cast<std::size_t>(random.whole(0, static_cast<int>(points.size()) - 1))];
    };
    for (int k = 0; k < circles; ++k) {
        const auto curve = through(any(), any(), any());
        if (!curve) continue;
        const double spread = robust_std(residuals(points, *curve));
        if (spread >= least) continue;
        least = spread;
        best = *curve;
    }
    return best;
}

/// One weighted step: shift of the centre, radius and, for an oval, its two coefficients.
void step(const std::vector<ObjectPoint>& points, double scale, CurveShape shape, PointWeights weights,
          RoundCurve& curve) {
    const int unknowns = shape == CurveShape::oval ? 5 : 3;
    cv::Mat normal = cv::Mat::zeros(unknowns, unknowns, CV_64F);
    cv::Mat right = cv::Mat::zeros(unknowns, 1, CV_64F);
    for (const auto& p : points) {
        const Polar at = polar(p, curve.centre_mm);
        const double e = at.distance - curve.radius_at(at.angle);
        const double u = weights == PointWeights::biweight ? e / (biweight * scale) : 0.0;
        if (std::abs(u) >= 1.0) continue;
        const double weight = (1.0 - u * u) * (1.0 - u * u);
        const double row[5] = {std::cos(at.angle), std::sin(at.angle), 1.0, std::cos(2.0 * at.angle),
                               std::sin(2.0 * at.angle)};
        for (int i = 0; i < unknowns; ++i) {
            for (int k = 0; k < unknowns; ++k) normal.at<double>(i, k) += weight * row[i] * row[k];
            right.at<double>(i) += weight * row[i] * e;
        }
    }
    cv::Mat delta;
    if (!cv::solve(normal, right, delta, cv::DECOMP_CHOLESKY)) return;
    curve.centre_mm.x += delta.at<double>(0);
    curve.centre_mm.y += delta.at<double>(1);
    curve.radius_mm += delta.at<double>(2);
    if (unknowns == 5) {
        curve.cos2_mm += delta.at<double>(3);
        curve.sin2_mm += delta.at<double>(4);
    }
}

}  // namespace

double RoundCurve::radius_at(double angle) const {
    return radius_mm + cos2_mm * std::cos(2.0 * angle) + sin2_mm * std::sin(2.0 * angle);
}

RoundCurve fit_round_curve(const std::vector<ObjectPoint>& points, CurveShape shape, PointWeights weights) {
    constexpr std::size_t least_points = 8;
    if (points.size() < least_points) throw std::invalid_argument("fit_round_curve: too few points");
    RoundCurve curve = weights == PointWeights::even ? start_of(points) : consensus(points);
    constexpr int steps = 30;
    constexpr double finest = 1e-4;  // of the radius: below any camera's resolution
    for (int i = 0; i < steps; ++i) {
        const double scale = std::max(robust_std(residuals(points, curve)), finest * curve.radius_mm);
        step(points, scale, i < steps / 3 ? CurveShape::circle : shape, weights, curve);
    }
    const auto left = residuals(points, curve);
    curve.spread_mm = robust_std(left);
    const double limit = std::max(4.0 * curve.spread_mm, finest * curve.radius_mm);
    const auto inliers =
        std::count_if(left.begin(), left.end(), [&](double e) { return std::abs(e) <= limit; });
    curve.inlier_part = static_cast<double>(inliers) / static_cast<double>(left.size());
    return curve;
}

}  // namespace ridgetally
