#include "scale/flat/edge_line.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr double step_px = 0.5;

cv::Vec3d colour_at(const cv::Mat& bgr, const cv::Point2d& p) {
    const double x = std::clamp(p.x, 0.0, bgr.cols - 1.001);
    const double y = std::clamp(p.y, 0.0, bgr.rows - 1.001);
    const int ix = static_cast<int>(x);
    const int iy = static_cast<int>(y);
    const double fx = x - ix;
    const double fy = y - iy;
    const auto px = [&](int dx, int dy) { return cv::Vec3d(bgr.at<cv::Vec3b>(iy + dy, ix + dx)); };
    return (px(0, 0) * (1 - fx) + px(1, 0) * fx) * (1 - fy) + (px(0, 1) * (1 - fx) + px(1, 1) * fx) * fy;
}

std::vector<cv::Vec3d> profile_of(const cv::Mat& bgr, const EdgeProbe& probe, int half) {
    std::vector<cv::Vec3d> profile;
    profile.reserve(static_cast<std::size_t>(2 * half + 1));
    for (int i = -half; i <= half; ++i)
        profile.push_back(colour_at(bgr, probe.at + probe.outward * (i * step_px)));
    return profile;
}

/// Unit colour direction from inside to outside: the median over all profiles of outer minus inner part.
cv::Vec3d colour_direction(const std::vector<std::vector<cv::Vec3d>>& profiles) {
    cv::Vec3d direction;
    for (int channel = 0; channel < 3; ++channel) {
        std::vector<double> differences;
        for (const auto& profile : profiles) {
            const std::size_t third = profile.size() / 3;
            double difference = 0.0;
            for (std::size_t i = 0; i < third; ++i)
                difference += profile[profile.size() - 1 - i][channel] - profile[i][channel];
            differences.push_back(difference / static_cast<double>(third));
        }
        direction[channel] = median_of(std::move(differences));
    }
    const double length = cv::norm(direction);
    return length > 0.0 ? direction / length : cv::Vec3d(1, 1, 1) / std::sqrt(3.0);
}

/// Steepest rise of the profile along the colour direction, refined by a parabola; the contrast is that of
/// means over 2 px to either side.
std::optional<EdgeHit> steepest(const std::vector<cv::Vec3d>& profile, const cv::Vec3d& direction, int half,
                                double least_contrast) {
    constexpr int reach = 4;  // 2 px
    std::vector<double> value;
    value.reserve(profile.size());
    for (const auto& colour : profile) value.push_back(colour.dot(direction));
    // First derivative of a Gaussian of 1 px, sampled every half pixel, as weights of differences.
    constexpr std::array<double, reach + 1> weight = {0.0, 0.44, 0.61, 0.49, 0.27};
    const int n = static_cast<int>(value.size());
    const auto slope = [&](int i) {
        double sum = 0.0;
        for (int k = 1; k <= reach; ++k)
            sum += weight[static_cast<std::size_t>(k)] *
                   (value[static_cast<std::size_t>(i + k)] - value[static_cast<std::size_t>(i - k)]);
        return sum;
    };
    int best = reach;
    for (int i = reach; i < n - reach; ++i)
        if (slope(i) > slope(best)) best = i;
    if (best <= reach || best >= n - 1 - reach) return std::nullopt;
    double contrast = 0.0;
    for (int k = 1; k <= reach; ++k)
        contrast +=
            (value[static_cast<std::size_t>(best + k)] - value[static_cast<std::size_t>(best - k)]) / reach;
    if (contrast < least_contrast) return std::nullopt;
    const double before = slope(best - 1), at = slope(best), after = slope(best + 1);
    const double curve = before - 2 * at + after;
    const double shift = curve < 0.0 ? 0.5 * (before - after) / curve : 0.0;
    return EdgeHit{(best - half + shift) * step_px, contrast};
}

/// y = level + slope x through points, Tukey-weighted with the scale of the residuals.
struct Fit {
    double level = 0.0;
    double slope = 0.0;
};

Fit robust_line(const std::vector<cv::Point2d>& points) {
    std::vector<double> weights(points.size(), 1.0);
    Fit fit;
    for (int round = 0; round < 8; ++round) {
        double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double w = weights[i];
            n += w;
            sx += w * points[i].x;
            sy += w * points[i].y;
            sxx += w * points[i].x * points[i].x;
            sxy += w * points[i].x * points[i].y;
        }
        const double spread = n * sxx - sx * sx;
        if (!(spread > 0.0)) return fit;
        fit.slope = (n * sxy - sx * sy) / spread;
        fit.level = (sy - fit.slope * sx) / n;
        std::vector<double> sizes;
        for (const auto& p : points) sizes.push_back(std::abs(p.y - fit.level - fit.slope * p.x));
        const double reach = 4.685 * std::max(0.1, mad_to_std * median_of(sizes));
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double rest = 1.0 - (sizes[i] / reach) * (sizes[i] / reach);
            weights[i] = sizes[i] < reach ? rest * rest : 0.0;
        }
    }
    return fit;
}

}  // namespace

std::vector<std::optional<EdgeHit>> find_edges(const cv::Mat& bgr, const std::vector<EdgeProbe>& probes,
                                               const EdgeOptions& options) {
    const int half = std::max(8, static_cast<int>(std::ceil((options.reach_px + 2.0) / step_px)));
    std::vector<std::vector<cv::Vec3d>> profiles;
    profiles.reserve(probes.size());
    for (const auto& probe : probes) profiles.push_back(profile_of(bgr, probe, half));
    const cv::Vec3d direction = colour_direction(profiles);
    std::vector<std::optional<EdgeHit>> hits;
    hits.reserve(probes.size());
    for (const auto& profile : profiles)
        hits.push_back(steepest(profile, direction, half, options.least_contrast));
    return hits;
}

std::optional<SideLine> find_side(const cv::Mat& bgr, const cv::Point2d& a, const cv::Point2d& b,
                                  const cv::Point2d& outward, double skip, const EdgeOptions& options) {
    const double length = cv::norm(b - a);
    const cv::Point2d along = (b - a) * (1.0 / length);
    // One probe a pixel says no more than one every two, and 400 are plenty.
    const int count = std::clamp(static_cast<int>(length / 2.0), 12, 400);
    std::vector<EdgeProbe> probes;
    for (int i = 0; i < count; ++i) {
        const double t = skip + (1.0 - 2.0 * skip) * (i + 0.5) / count;
        probes.push_back({a + (b - a) * t, outward});
    }
    const auto hits = find_edges(bgr, probes, options);
    std::vector<cv::Point2d> points;
    std::vector<double> contrasts;
    for (std::size_t i = 0; i < hits.size(); ++i) {
        if (!hits[i]) continue;
        points.emplace_back((probes[i].at - a).dot(along), hits[i]->offset_px);
        contrasts.push_back(hits[i]->contrast);
    }
    if (points.size() * 3 < probes.size()) return std::nullopt;
    const Fit fit = robust_line(points);
    const double near_px = std::max(1.0, 0.002 * length);  // paper is cut and lies straight to 1 in 500
    double squares = 0.0;
    int on_line = 0;
    for (const auto& p : points) {
        const double off = p.y - fit.level - fit.slope * p.x;
        if (std::abs(off) > near_px) continue;
        squares += off * off;
        ++on_line;
    }
    if (on_line * 3 < count) return std::nullopt;
    SideLine side;
    side.through = a + outward * fit.level;
    const cv::Point2d direction = along + outward * fit.slope;
    side.along = direction * (1.0 / cv::norm(direction));
    side.support = static_cast<double>(on_line) / count;
    side.spread_px = std::sqrt(squares / on_line);
    side.contrast = median_of(std::move(contrasts));
    return side;
}

}  // namespace ridgetally
