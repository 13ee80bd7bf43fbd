#include "lattice/ridges.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;

/// The channel whose response is strongest overall: ridges follow one phase, not a mixture of phases.
const PhaseField& strongest(const std::vector<PhaseField>& fields) {
    const auto energy = [](const PhaseField& field) { return cv::norm(field.response, cv::NORM_L2SQR); };
    return *std::max_element(fields.begin(), fields.end(),
                             [&](const auto& a, const auto& b) { return energy(a) < energy(b); });
}

/// Phase in turns along the field's axis, the carrier put back.
double turns_at(const PhaseField& field, int x, int y) {
    const auto z = field.response.at<cv::Vec2f>(y, x);
    const double carrier = (field.axis == Axis::x ? x : y) / field.pitch_px;
    return std::atan2(z[1], z[0]) / turn + carrier;
}

/// Positions along one line of pixels where the unwrapped phase passes multiples of 1 / per_turn, keyed by
/// the multiple. `previous` ties the whole turns to the neighbouring line.
struct Crossings {
    std::map<int, double> at;
    std::vector<std::pair<int, double>> unwrapped;  // position, turns
};

template <typename PointAt>
Crossings crossings_along(const PhaseField& field, const cv::Mat& mask, int length, int per_turn,
                          PointAt point_at) {
    Crossings result;
    double last = 0.0;
    for (int i = 0; i < length; ++i) {
        const cv::Point p = point_at(i);
        if (p.x < 0 || p.y < 0 || p.x >= mask.cols || p.y >= mask.rows || mask.at<uchar>(p) == 0) continue;
        double turns = turns_at(field, p.x, p.y);
        if (!result.unwrapped.empty()) {
            const double expected = last + (i - result.unwrapped.back().first) / field.pitch_px;
            turns += std::round(expected - turns);
        }
        result.unwrapped.emplace_back(i, turns);
        last = turns;
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

double turns_near(const Crossings& line, int position) {
    double best = 1e300;
    double turns = 0.0;
    for (const auto& [at, value] : line.unwrapped) {
        if (std::abs(at - position) < best) {
            best = std::abs(at - position);
            turns = value;
        }
    }
    return turns;
}

std::vector<Ridge> ridges_from(const std::map<int, std::vector<RectifiedPoint>>& points,
                               std::size_t least_points) {
    std::vector<Ridge> ridges;
    for (const auto& [key, line] : points) {
        if (line.size() < least_points) continue;
        ridges.push_back({static_cast<int>(ridges.size()), line});
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
        Crossings line =
            crossings_along(field, mask, mask.rows, rows_per_period, [&](int i) { return cv::Point(x, i); });
        if (line.unwrapped.size() < 2) continue;
        int whole = 0;
        if (!previous.unwrapped.empty()) {
            const int middle = line.unwrapped[line.unwrapped.size() / 2].first;
            whole = static_cast<int>(std::lround(turns_near(previous, middle) - turns_near(line, middle)));
        }
        std::map<int, double> shifted;
        for (const auto& [key, y] : line.at) shifted.emplace(key + whole * rows_per_period, y);
        for (auto& [at, turns] : line.unwrapped) turns += whole;
        for (const auto& [key, y] : shifted) points[key].push_back({static_cast<double>(x), y});
        previous = std::move(line);
        ++lines;
    }
    // A ridge seen over less than a quarter of the width is the torn edge, not a row.
    return ridges_from(points, std::max<std::size_t>(2, lines / 4));
}

std::vector<Ridge> stitch_ridges(const std::vector<PhaseField>& stitch_fields, const std::vector<Ridge>& rows,
                                 const cv::Mat& mask, int stitches_per_period) {
    if (rows.size() < 2) return {};
    const PhaseField& field = strongest(stitch_fields);
    const Ridge& upper = rows[rows.size() / 2 - 1];
    const Ridge& lower = rows[rows.size() / 2];
    const auto middle_y = [&](double x) { return 0.5 * (y_at(upper, x) + y_at(lower, x)); };
    const Crossings line = crossings_along(field, mask, mask.cols, stitches_per_period, [&](int i) {
        const double y = middle_y(i);
        return std::isnan(y) ? cv::Point(-1, -1) : cv::Point(i, static_cast<int>(std::lround(y)));
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
