#include "scale/flat/quad_candidates.h"

#include <algorithm>
#include <cmath>

#include "core/units.h"
#include "scale/flat/long_edges.h"

namespace ridgetally {
namespace {

/// Of one direction: with 20 lines in each of the two or three directions around a side, some 1,000 pairs may
/// be opposite sides.
constexpr std::size_t most_lines = 20;

struct Pair {
    const LongEdge* first = nullptr;
    const LongEdge* second = nullptr;
};

/// Two lines that may be opposite sides: directions within 25 degrees, a side apart.
std::vector<Pair> opposite_pairs(const std::vector<LongEdge>& edges, double least_side) {
    constexpr double cosine_25_deg = 0.906;
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        for (std::size_t j = i + 1; j < edges.size(); ++j) {
            if (std::abs(edges[i].along.dot(edges[j].along)) < cosine_25_deg) continue;
            const cv::Point2d middle =
                edges[j].through +
                edges[j].along * (0.5 * (edges[j].stretches.front().x + edges[j].stretches.back().y));
            if (std::abs(edges[i].along.cross(middle - edges[i].through)) < least_side) continue;
            pairs.push_back({&edges[i], &edges[j]});
        }
    }
    return pairs;
}

/// Corners of two pairs of lines, clockwise; none where lines are parallel.
std::optional<Quad> corners_of(const Pair& p, const Pair& q) {
    Quad quad;
    const LongEdge* order[4][2] = {
        {p.first, q.first}, {p.first, q.second}, {p.second, q.second}, {p.second, q.first}};
    for (std::size_t i = 0; i < 4; ++i) {
        const auto* a = order[i][0];
        const auto* b = order[i][1];
        const auto corner = crossing(a->through, a->along, b->through, b->along);
        if (!corner) return std::nullopt;
        quad[i] = *corner;
    }
    if ((quad[1] - quad[0]).cross(quad[2] - quad[1]) < 0.0) std::swap(quad[1], quad[3]);
    return quad;
}

double side_coverage(const LongEdge& edge, const cv::Point2d& a, const cv::Point2d& b) {
    return coverage(edge, edge.along.dot(a - edge.through), edge.along.dot(b - edge.through));
}

/// Coverage of the least covered side and of all together.
struct Covered {
    double least = 0.0;
    double mean = 0.0;
};

Covered covered_of(const Quad& quad, const Pair& p, const Pair& q) {
    Covered result{1.0, 0.0};
    for (std::size_t i = 0; i < 4; ++i) {
        const auto& a = quad[i];
        const auto& b = quad[(i + 1) % 4];
        double side = 0.0;
        for (const auto* edge : {p.first, p.second, q.first, q.second}) {
            const auto off = [&](const cv::Point2d& c) {
                return std::abs(edge->along.cross(c - edge->through));
            };
            if (off(a) < 0.5 && off(b) < 0.5) side = std::max(side, side_coverage(*edge, a, b));
        }
        result.least = std::min(result.least, side);
        result.mean += side / 4.0;
    }
    return result;
}

struct Scored {
    Quad quad;
    double score = 0.0;
};

void keep_if_it_fits(const Pair& p, const Pair& q, const cv::Size& size, const ViewPriors& view,
                     const QuadTarget& target, std::vector<Scored>& kept) {
    // A third of every side and half of all must be seen as edges; the rest may blend with the table.
    constexpr double least_side_seen = 0.3;
    constexpr double least_mean_seen = 0.5;
    auto quad = corners_of(p, q);
    if (!quad || !is_proper(*quad, size, 1.0) || shortest_side(*quad) < target.least_side_px) return;
    const Covered covered = covered_of(*quad, p, q);
    if (covered.least < least_side_seen || covered.mean < least_mean_seen) return;
    for (int turn = 0; turn < 2; ++turn) {
        if (fits(*quad, view, target)) {
            kept.push_back({*quad, covered.mean});
            return;
        }
        quad = turned(*quad);
    }
}

}  // namespace

bool fits(const Quad& quad, const ViewPriors& view, const QuadTarget& target) {
    const auto shape = shape_of(quad, view);
    if (!shape || shape->tilt_deg > target.most_tilt_deg) return false;
    // The tangent of the tilt found is proportional to the focal length taken, its cosine is the shape.
    const double sine = std::sin(shape->tilt_deg / degrees_per_radian);
    const double focal = target.focal_tolerance * sine * sine;
    return std::abs(std::log(shape->aspect / target.aspect)) < target.aspect_tolerance + focal &&
           std::abs(shape->cosine) < target.cosine_tolerance + focal;
}

std::vector<Quad> quad_candidates(const cv::Mat& bgr, const ViewPriors& view, const QuadTarget& target,
                                  std::size_t most) {
    const auto edges = long_edges(bgr, 0.3 * target.least_side_px, most_lines);
    const auto pairs = opposite_pairs(edges, target.least_side_px);
    constexpr double cosine_60_deg = 0.5;
    std::vector<Scored> kept;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        for (std::size_t j = i + 1; j < pairs.size(); ++j) {
            if (std::abs(pairs[i].first->along.dot(pairs[j].first->along)) > cosine_60_deg) continue;
            keep_if_it_fits(pairs[i], pairs[j], bgr.size(), view, target, kept);
        }
    }
    std::stable_sort(kept.begin(), kept.end(),
                     [](const Scored& a, const Scored& b) { return a.score > b.score; });
    std::vector<Quad> quads;
    for (const auto& candidate : kept) {
        if (quads.size() >= most) break;
        quads.push_back(candidate.quad);
    }
    return quads;
}

}  // namespace ridgetally
