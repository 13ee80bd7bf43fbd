#include "scale/coarse_divisions.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "core/median.h"

namespace ridgetally {
namespace {

// None of these was swept.
constexpr double blur_divisions = 0.06;    // fine marks, a tenth apart, vanish
constexpr double reach_divisions = 0.15;   // of an edge around its place
constexpr double window_divisions = 0.12;  // rows looked at together
constexpr double faint_share = 0.25;       // of the strongest row
constexpr double row_share = 0.4;          // of the strongest of those chosen, for their neighbours
constexpr double present_share = 0.35;     // of the median edge
constexpr double farthest = 0.05;          // divisions from the smooth row
constexpr double widest_residual = 0.04;   // of a division
constexpr double halfway_share = 0.6;      // of a division's edge, for one halfway that counts
constexpr double least_found = 0.75;
constexpr std::size_t fewest_marks = 5;

struct Edge {
    double u = 0.0;
    double mass = 0.0;
};

/// Middle of the edges within reach of a column: of a line the line's, of a step the step's. The median of
/// the rows.
Edge edges_near(const cv::Mat1f& edges, const RowRange& rows, int middle, int reach) {
    std::vector<double> centres;
    double total = 0.0;
    for (int j = rows.top; j <= rows.bottom; ++j) {
        const float* row = edges[j];
        const float ground = *std::min_element(row + middle - reach, row + middle + reach + 1);
        double mass = 0.0;
        double moment = 0.0;
        for (int i = middle - reach; i <= middle + reach; ++i) {
            mass += static_cast<double>(row[i] - ground);
            moment += static_cast<double>(row[i] - ground) * i;
        }
        if (mass <= 0.0) continue;
        total += mass;
        centres.push_back(moment / mass);
    }
    if (centres.empty()) return {static_cast<double>(middle), 0.0};
    return {median_of(centres), total / (rows.bottom - rows.top + 1)};
}

Edge edge_at(const Strip& strip, const cv::Mat1f& edges, const RowRange& rows, double u, double pitch) {
    const int reach = std::max(2, static_cast<int>(std::lround(reach_divisions * pitch / strip.step)));
    Edge edge{strip.column(u), 0.0};
    for (int round = 0; round < 3; ++round) {  // a window beside the edge draws its middle
        const int middle = static_cast<int>(std::lround(edge.u));
        if (middle - reach < 1 || middle + reach + 1 >= edges.cols) return {u, 0.0};
        edge = edges_near(edges, rows, middle, reach);
    }
    return {strip.u(edge.u), edge.mass};
}

/// How far edges stand out at the places from what stands between them, row by row.
std::vector<double> excess_of(const Strip& strip, const cv::Mat1f& edges, const CoarseRow& row) {
    std::vector<double> excess;
    for (int j = 0; j < edges.rows; ++j) {
        std::vector<double> here;
        std::vector<double> between;
        for (const double u : row.at_px) {
            here.push_back(static_cast<double>(edge_strength(edges, j, strip.column(u))));
            for (const double off : {0.3, 0.5, 0.7})
                between.push_back(
                    static_cast<double>(edge_strength(edges, j, strip.column(u + off * row.pitch_px))));
        }
        excess.push_back(median_of(here) - median_of(between));
    }
    return excess;
}

/// The row's places as some rows of the strip show them.
std::vector<Sample> places_in(const Strip& strip, const cv::Mat1f& edges, const RowRange& rows,
                              const CoarseRow& row) {
    std::vector<Sample> places;
    for (std::size_t i = 0; i < row.at_px.size(); ++i) {
        const Edge e = edge_at(strip, edges, rows, row.at_px[i], row.pitch_px);
        if (e.mass > 0.0) places.push_back({static_cast<double>(row.index[i]), e.u, 1.0});
    }
    return places;
}

/// The rows whose edges stand most evenly, of those that show them at all: numerals stand out as well, but
/// each a little to one side.
RowRange edge_rows(const Strip& strip, const cv::Mat1f& edges, const CoarseRow& row) {
    const auto excess = excess_of(strip, edges, row);
    const double most = *std::max_element(excess.begin(), excess.end());
    const int height =
        std::max(3, static_cast<int>(std::lround(window_divisions * row.pitch_px / strip.step)));
    RowRange best;
    double least = 1e300;
    for (int top = 0; top + height <= edges.rows; top += std::max(1, height / 3)) {
        const RowRange rows{top, top + height - 1};
        const double mean =
            std::accumulate(excess.begin() + rows.top, excess.begin() + rows.bottom + 1, 0.0) / height;
        if (mean < faint_share * most) continue;
        const auto places = places_in(strip, edges, rows, row);
        if (places.size() < row.at_px.size()) continue;
        const double scatter = fit_index_model(places, place_floor_px).residual;
        if (scatter >= least) continue;
        least = scatter;
        best = rows;
    }
    if (best.bottom < best.top) return best;
    double usual = 0.0;
    for (int j = best.top; j <= best.bottom; ++j)
        usual = std::max(usual, excess[static_cast<std::size_t>(j)]);
    const auto belongs = [&](int j) {
        return j >= 0 && j < edges.rows && excess[static_cast<std::size_t>(j)] > row_share * usual;
    };
    while (belongs(best.top - 1)) --best.top;
    while (belongs(best.bottom + 1)) ++best.bottom;
    return best;
}

/// Goes on beyond the ends of what was found, and looks again at every division in between.
std::vector<Sample> all_places(const Strip& strip, const cv::Mat1f& edges, const Divisions& d, double pitch) {
    std::vector<double> masses;
    for (const Sample& s : d.places) masses.push_back(edge_at(strip, edges, d.rows, s.y, pitch).mass);
    const double least = present_share * median_of(masses);
    const auto seen = [&](int k) -> std::optional<Sample> {
        const double expected = d.model.position(k);
        if (expected < strip.u_begin || expected > strip.u(strip.grey.cols - 1)) return std::nullopt;
        const Edge e = edge_at(strip, edges, d.rows, expected, pitch);
        if (e.mass < least || std::abs(e.u - expected) > farthest * pitch) return std::nullopt;
        return Sample{static_cast<double>(k), e.u, 1.0};
    };
    const int first = static_cast<int>(d.places.front().x);
    const int last = static_cast<int>(d.places.back().x);
    std::vector<Sample> found;
    for (int k = first; k <= last; ++k)
        if (const auto s = seen(k)) found.push_back(*s);
    for (const int way : {-1, 1}) {
        int missed = 0;
        for (int k = (way < 0 ? first : last) + way; missed < 1; k += way) {
            const auto s = seen(k);
            missed = s ? 0 : missed + 1;
            if (s) found.push_back(*s);
        }
    }
    std::sort(found.begin(), found.end(), [](const Sample& a, const Sample& b) { return a.x < b.x; });
    return found;
}

/// Grey levels across a division's edges, all of them: of a line twice its height.
double contrast_of(const Strip& strip, const cv::Mat1f& edges, const Divisions& d, double pitch) {
    std::vector<double> masses;
    for (const Sample& s : d.places) masses.push_back(edge_at(strip, edges, d.rows, s.y, pitch).mass);
    return median_of(masses) * strip.step;
}

/// Whether edges as strong stand halfway between the divisions: which are the divisions is open then.
bool halved(const Strip& strip, const cv::Mat1f& edges, const Divisions& d, double pitch) {
    std::vector<double> whole;
    std::vector<double> half;
    for (const Sample& s : d.places) {
        whole.push_back(edge_at(strip, edges, d.rows, s.y, pitch).mass);
        half.push_back(edge_at(strip, edges, d.rows, d.model.position(s.x + 0.5), pitch).mass);
    }
    return median_of(half) > halfway_share * median_of(whole);
}

}  // namespace

cv::Mat1f edges_of(const Strip& strip, double pitch_px) {
    cv::Mat1f blurred;
    cv::GaussianBlur(strip.grey, blurred, {}, blur_divisions * pitch_px / strip.step, 0.7 / strip.step,
                     cv::BORDER_REPLICATE);
    cv::Mat1f steep;
    cv::Sobel(blurred, steep, CV_32F, 1, 0, 1, 0.5 / strip.step, 0.0, cv::BORDER_REPLICATE);
    return cv::abs(steep);
}

float edge_strength(const cv::Mat1f& edges, int row, double column) {
    const int i = static_cast<int>(std::lround(column));
    return row < 0 || row >= edges.rows || i < 1 || i + 1 >= edges.cols
               ? 0.F
               : (edges(row, i - 1) + edges(row, i) + edges(row, i + 1)) / 3.F;
}

double residual_of(const std::vector<Sample>& places, const IndexModel& model) {
    double square = 0.0;
    for (const Sample& s : places) square += std::pow(s.y - model.position(s.x), 2);
    return std::sqrt(square / static_cast<double>(places.size()));
}

Divisions divisions_in(const Strip& strip, const cv::Mat1f& edges, const CoarseRow& row) {
    Divisions d;
    d.rows = edge_rows(strip, edges, row);
    if (d.rows.bottom < d.rows.top) {
        d.fault = "too few divisions in step";
        return d;
    }
    d.places = places_in(strip, edges, d.rows, row);
    for (int round = 0; round < 3; ++round) {
        if (d.places.size() < fewest_marks) {
            d.fault = "too few divisions in step";
            return d;
        }
        d.model = fit_index_model(d.places, place_floor_px);
        d.places = all_places(strip, edges, d, row.pitch_px);
    }
    if (d.places.size() < fewest_marks) {
        d.fault = "too few divisions in step";
        return d;
    }
    d.model = fit_index_model(d.places, place_floor_px);
    d.residual_px = residual_of(d.places, d.model);
    d.contrast = contrast_of(strip, edges, d, row.pitch_px);
    if (halved(strip, edges, d, row.pitch_px)) d.fault = "divisions halved by others as strong";
    const double span = d.places.back().x - d.places.front().x + 1.0;
    if (static_cast<double>(d.places.size()) < least_found * span) d.fault = "too many divisions missing";
    if (d.residual_px > widest_residual * row.pitch_px) d.fault = "divisions too uneven for a scale";
    return d;
}

std::vector<Sample> lean_of_edges(const Strip& strip, const cv::Mat1f& edges, const Divisions& d,
                                  double pitch) {
    const int middle = (d.rows.top + d.rows.bottom) / 2;
    const RowRange upper{d.rows.top, middle};
    const RowRange lower{middle + 1, d.rows.bottom};
    const double apart = 0.5 * (d.rows.bottom - d.rows.top + 1) * strip.step;
    std::vector<Sample> leans;
    if (lower.bottom < lower.top) return leans;
    for (const Sample& s : d.places) {
        const Edge a = edge_at(strip, edges, upper, s.y, pitch);
        const Edge b = edge_at(strip, edges, lower, s.y, pitch);
        if (a.mass > 0.0 && b.mass > 0.0) leans.push_back({s.y, (b.u - a.u) / apart, 1.0});
    }
    return leans;
}

}  // namespace ridgetally
