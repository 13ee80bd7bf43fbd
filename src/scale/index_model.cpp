#include "scale/index_model.h"

#include <algorithm>
#include <cmath>
#include <opencv2/core.hpp>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr std::size_t cubic_from = 12;

/// a, b, c from u = a x + b - c x u, which is linear (the usual direct linear transformation).
void linear_start(const std::vector<Sample>& samples, const std::vector<double>& weights, IndexModel& m) {
    cv::Matx33d normal = cv::Matx33d::zeros();
    cv::Vec3d right(0.0, 0.0, 0.0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double x = (samples[i].x - m.centre) / m.half_range;
        const cv::Vec3d row(x, 1.0, -x * samples[i].y);
        normal += weights[i] * (row * row.t());
        right += weights[i] * samples[i].y * row;
    }
    const cv::Vec3d solution = normal.solve(right, cv::DECOMP_SVD);
    m.a = solution[0];
    m.b = solution[1];
    m.c = std::clamp(solution[2], -0.6, 0.6);  // 0.6: spacing changes 16-fold along the ruler, no photo
}

void gauss_newton_step(const std::vector<Sample>& samples, const std::vector<double>& weights,
                       IndexModel& m) {
    const bool with_cubic = samples.size() >= cubic_from;
    cv::Matx44d normal = cv::Matx44d::zeros();
    cv::Vec4d right(0.0, 0.0, 0.0, 0.0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double x = (samples[i].x - m.centre) / m.half_range;
        const double w = 1.0 / (m.c * x + 1.0);
        const cv::Vec4d row(x * w, w, -x * (m.a * x + m.b) * w * w, with_cubic ? x * x * x : 0.0);
        normal += weights[i] * (row * row.t());
        right += weights[i] * (samples[i].y - m.position(samples[i].x)) * row;
    }
    if (!with_cubic) normal(3, 3) = 1.0;
    const cv::Vec4d step = normal.solve(right, cv::DECOMP_SVD);
    m.a += step[0];
    m.b += step[1];
    m.c = std::clamp(m.c + step[2], -0.6, 0.6);
    m.d += step[3];
}

}  // namespace

double IndexModel::position(double index_value) const {
    const double x = (index_value - centre) / half_range;
    // Outside the fitted range the cubic goes on along its tangent.
    const double inner = std::clamp(x, -1.0, 1.0);
    const double cubic = inner * inner * inner + 3.0 * inner * inner * (x - inner);
    return (a * x + b) / std::max(c * x + 1.0, 0.05) + d * cubic;
}

double IndexModel::spacing(double index_value) const {
    return position(index_value + 0.5) - position(index_value - 0.5);
}

double IndexModel::index(double at) const {
    double k = centre + half_range * (at - b) / (std::abs(a) > 1e-12 ? a : 1.0);
    for (int round = 0; round < 12; ++round) {
        const double slope = spacing(k);
        if (std::abs(slope) < 1e-9) break;
        k -= std::clamp((position(k) - at) / slope, -half_range, half_range);
    }
    return k;
}

IndexModel fit_index_model(const std::vector<Sample>& samples, double floor) {
    IndexModel m;
    if (samples.size() < 3) return m;
    const auto [low, high] = std::minmax_element(samples.begin(), samples.end(),
                                                 [](const auto& p, const auto& q) { return p.x < q.x; });
    m.centre = 0.5 * (low->x + high->x);
    m.half_range = std::max(0.5 * (high->x - low->x), 1e-9);
    // Positions about zero keep the linear start well conditioned.
    std::vector<Sample> shifted = samples;
    double mean = 0.0;
    for (const Sample& s : samples) mean += s.y / static_cast<double>(samples.size());
    for (Sample& s : shifted) s.y -= mean;
    std::vector<double> weights;
    for (const Sample& s : shifted) weights.push_back(s.weight);
    linear_start(shifted, weights, m);
    std::vector<double> residuals(shifted.size());
    double scale = floor;
    for (int round = 0; round < 16; ++round) {
        for (std::size_t i = 0; i < shifted.size(); ++i)
            residuals[i] = std::abs(shifted[i].y - m.position(shifted[i].x));
        scale = std::max(mad_to_std * median_of(residuals), floor);
        for (std::size_t i = 0; i < shifted.size(); ++i) {
            const double ratio = residuals[i] / (4.685 * scale);
            const double biweight = ratio < 1.0 ? (1.0 - ratio * ratio) * (1.0 - ratio * ratio) : 0.0;
            weights[i] = shifted[i].weight * (round < 5 ? scale / std::max(residuals[i], scale) : biweight);
        }
        gauss_newton_step(shifted, weights, m);
    }
    // (a x + b) / (c x + 1) + mean = ((a + mean c) x + b + mean) / (c x + 1)
    m.a += mean * m.c;
    m.b += mean;
    m.residual = scale;
    return m;
}

}  // namespace ridgetally
