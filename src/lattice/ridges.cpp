#include "lattice/ridges.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;

/// The channel whose response is strongest overall: ridges follow one phase, not a mixture of phases.
const PhaseField& strongest(const std::vector<PhaseField>& fields) {
    const auto energy = [](const PhaseField& field) { return cv::norm(field.response, cv::NORM_L2SQR); };
    return *std::max_element(fields.begin(), fields.end(),
                             [&](const auto& a, const auto& b) { return energy(a) < energy(b); });
}

/// Phase in turns along the field's axis at a pixel of the picture, the carrier put back; none outside the
/// mask.
std::optional<double> turns_at(const PhaseField& field, double x_px, double y_px) {
    const double step = field.step_px;
    const int x = static_cast<int>(std::lround((x_px + 0.5) / step - 0.5));
    const int y = static_cast<int>(std::lround((y_px + 0.5) / step - 0.5));
    if (x < 0 || y < 0 || x >= field.response.cols || y >= field.response.rows) return std::nullopt;
    const auto z = field.response.at<cv::Vec2f>(y, x);
    if (z[0] == 0.0F && z[1] == 0.0F) return std::nullopt;
    // The comb's own phase at the pixel, not at the sample: between samples only the slow residual is taken
    // as even.
    return std::atan2(z[1], z[0]) / turn + (field.axis == Axis::x ? x_px : y_px) / field.pitch_px;
}

/// Phase unwrapped along one line of pixels, and where it passes multiples of 1 / per_turn.
struct Crossings {
    std::map<int, double> at;                       ///< multiple -> position
    std::vector<std::pair<int, double>> unwrapped;  ///< position, turns
};

template <typename PointAt>
Crossings crossings_along(const PhaseField& field, int length, int per_turn, PointAt point_at) {
    Crossings result;
    for (int i = 0; i < length; ++i) {
        const std::optional<RectifiedPoint> p = point_at(i);
        auto turns = p ? turns_at(field, p->x, p->y) : std::nullopt;
        if (!turns) continue;
        if (!result.unwrapped.empty()) {
            const auto& [last_i, last_turns] = result.unwrapped.back();
            *turns += std::round(last_turns + (i - last_i) / field.pitch_px - *turns);
        }
        result.unwrapped.emplace_back(i, *turns);
    }
    for (std::size_t k = 1; k < result.unwrapped.size(); ++k) {
        const auto [i0, t0] = result.unwrapped[k - 1];
        const auto [i1, t1] = result.unwrapped[k];
        const int multiple = static_cast<int>(std::floor(t1 * per_turn));
        if (i1 == i0 + 1 && t1 > t0 && std::floor(t0 * per_turn) < multiple) {
            const double f = (static_cast<double>(multiple) / per_turn - t0) / (t1 - t0);
            result.at.emplace(multiple, i0 + f);
        }
    }
    return result;
}

/// Turns of a line at a position, from the nearest one it has: a line that the rim cuts need not reach it.
double turns_near(const Crossings& line, int position, double pitch_px) {
    double best = 1e300;
    double turns = 0.0;
    for (const auto& [at, value] : line.unwrapped) {
        if (std::abs(at - position) < best) {
            best = std::abs(at - position);
            turns = value + (position - at) / pitch_px;
        }
    }
    return turns;
}

/// Points that jump from their neighbours by more than a third of a row are not on the ridge: a torn edge, a
/// knot.
std::vector<RectifiedPoint> without_jumps(const std::vector<RectifiedPoint>& line, double row_px) {
    std::vector<RectifiedPoint> kept;
    for (std::size_t i = 0; i < line.size(); ++i) {
        std::vector<double> near;
        for (std::size_t k = i > 3 ? i - 3 : 0; k < std::min(i + 4, line.size()); ++k)
            near.push_back(line[k].y);
        if (std::abs(line[i].y - median_of(near)) < row_px / 3.0) kept.push_back(line[i]);
    }
    return kept;
}

std::vector<Ridge> ridges_from(const std::map<int, std::vector<RectifiedPoint>>& points,
                               std::size_t least_points, double row_px) {
    std::vector<Ridge> ridges;
    for (const auto& [key, line] : points) {
        auto kept = without_jumps(line, row_px);
        if (kept.size() < least_points) continue;
        ridges.push_back({static_cast<int>(ridges.size()), std::move(kept)});
    }
    return ridges;
}

/// y of a ridge at column x, linear between its points; NaN beyond its ends.
double y_at(const Ridge& ridge, double x) {
    const auto& p = ridge.points;
    for (std::size_t i = 1; i < p.size(); ++i) {
        if (p[i - 1].x <= x && x <= p[i].x) {
            const double f = p[i].x > p[i - 1].x ? (x - p[i - 1].x) / (p[i].x - p[i - 1].x) : 0.0;
            return p[i - 1].y + f * (p[i].y - p[i - 1].y);
        }
    }
    return std::nan("");
}

}  // namespace

std::vector<Ridge> row_ridges(const std::vector<PhaseField>& row_fields, const cv::Mat& mask,
                              int rows_per_period) {
    const PhaseField& field = strongest(row_fields);
    const int step = std::max(2, static_cast<int>(field.pitch_px / 4));
    std::map<int, std::vector<RectifiedPoint>> points;
    Crossings previous;
    std::size_t lines = 0;
    for (int x = step / 2; x < mask.cols; x += step) {
        Crossings line = crossings_along(field, mask.rows, rows_per_period, [&](int i) {
            return std::optional(RectifiedPoint{static_cast<double>(x), static_cast<double>(i)});
        });
        if (line.unwrapped.size() < 2) continue;
        int whole = 0;
        if (!previous.unwrapped.empty()) {
            const int middle = line.unwrapped[line.unwrapped.size() / 2].first;
            whole = static_cast<int>(std::lround(turns_near(previous, middle, field.pitch_px) -
                                                 turns_near(line, middle, field.pitch_px)));
        }
        for (const auto& [key, y] : line.at)
            points[key + whole * rows_per_period].push_back({static_cast<double>(x), y});
        for (auto& [at, turns] : line.unwrapped) turns += whole;
        previous = std::move(line);
        ++lines;
    }
    // A ridge seen over less than a quarter of the width is the torn edge, not a row.
    return ridges_from(points, std::max<std::size_t>(2, lines / 4), field.pitch_px / rows_per_period);
}

std::vector<Ridge> stitch_ridges(const std::vector<PhaseField>& stitch_fields, const std::vector<Ridge>& rows,
                                 const cv::Mat& mask, int stitches_per_period) {
    if (rows.size() < 2) return {};
    const PhaseField& field = strongest(stitch_fields);
    const Ridge& upper = rows[rows.size() / 2 - 1];
    const Ridge& lower = rows[rows.size() / 2];
    const Crossings line = crossings_along(field, mask.cols, stitches_per_period, [&](int i) {
        const double y = 0.5 * (y_at(upper, i) + y_at(lower, i));
        return std::isnan(y) ? std::nullopt : std::optional(RectifiedPoint{static_cast<double>(i), y});
    });
    std::vector<Ridge> ridges;
    for (const auto& [key, x] : line.at) {
        const double top = y_at(upper, x);
        const double bottom = y_at(lower, x);
        if (std::isnan(top) || std::isnan(bottom)) continue;
        ridges.push_back({static_cast<int>(ridges.size()), {{x, top}, {x, bottom}}});
    }
    return ridges;
}

}  // namespace ridgetally
