#include "scale/comb_search.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "scale/comb_cells.h"

namespace ridgetally {
namespace {

constexpr double reach_pitches = 14.0;    // gap a chain may leap: a numeral, a hair, a small glare
constexpr double widest_turn_rad = 0.12;  // 7 degrees between neighbours: bent tape, steep perspective
constexpr double widest_log_pitch = 0.13;
constexpr double shortest_chain_pitches = 8.0;
constexpr double fine_coherence = 0.45;   // on the finest picture, where most windows are
constexpr double coarse_coherence = 0.3;  // on smaller ones marks share their window with the rule's edge
// Seeds tried, most regular first: fabric, grain and ornaments give many that lead nowhere, and cost little.
// On 161 photos (23 turned by seven angles) 80 missed an edge that 600 read on six, 200 on two.
constexpr int most_seeds = 600;

double turn_between(double a, double b) {
    const double d = std::remainder(a - b, std::numbers::pi);
    return std::abs(d);
}

struct Heading {
    double x = 0.0;
    double y = 0.0;
};

/// Unit vector of a cell's axis, on the side of `like`.
Heading heading_of(const CombCell& cell, const Heading& like) {
    Heading h{std::cos(cell.axis_rad), std::sin(cell.axis_rad)};
    if (h.x * like.x + h.y * like.y < 0.0) h = {-h.x, -h.y};
    return h;
}

/// The cell that carries the chain on from `from`, or -1.
int next_cell(const std::vector<CombCell>& cells, const std::vector<char>& used, int from,
              const Heading& heading) {
    const CombCell& here = cells[static_cast<std::size_t>(from)];
    const double reach = reach_pitches * here.pitch_px;
    int best = -1;
    double best_cost = 1e30;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (used[i]) continue;
        const CombCell& c = cells[i];
        const double dx = c.centre_px.x - here.centre_px.x;
        const double dy = c.centre_px.y - here.centre_px.y;
        const double along = dx * heading.x + dy * heading.y;
        if (along < 0.8 * here.pitch_px || along > reach) continue;
        const double lateral = std::abs(dy * heading.x - dx * heading.y);
        if (lateral > here.pitch_px + 0.15 * along) continue;
        const double misfit = std::abs(std::log(c.pitch_px / here.pitch_px));
        if (misfit > widest_log_pitch || turn_between(c.axis_rad, here.axis_rad) > widest_turn_rad) continue;
        const double cost = along + 2.0 * lateral + 20.0 * here.pitch_px * misfit;
        if (cost < best_cost) {
            best_cost = cost;
            best = static_cast<int>(i);
        }
    }
    return best;
}

std::vector<int> walk(const std::vector<CombCell>& cells, const std::vector<char>& used, int seed,
                      Heading heading) {
    std::vector<int> path;
    int at = seed;
    for (;;) {
        at = next_cell(cells, used, at, heading);
        if (at < 0) return path;
        path.push_back(at);
        const Heading h = heading_of(cells[static_cast<std::size_t>(at)], heading);
        heading = {0.7 * heading.x + 0.3 * h.x, 0.7 * heading.y + 0.3 * h.y};
        const double norm = std::hypot(heading.x, heading.y);
        heading = {heading.x / norm, heading.y / norm};
    }
}

/// Cells beside the path that tell the same comb, so that they seed no chain of their own. A coarse comb, of
/// fabric say, has no say over a fine one further away than the fine one's own pitch makes near.
std::vector<int> companions(const std::vector<CombCell>& cells, const std::vector<char>& used,
                            const std::vector<int>& path) {
    std::vector<int> beside;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (used[i]) continue;
        const CombCell& c = cells[i];
        for (const int p : path) {
            const CombCell& o = cells[static_cast<std::size_t>(p)];
            const double apart = std::hypot(c.centre_px.x - o.centre_px.x, c.centre_px.y - o.centre_px.y);
            if (apart > 3.0 * std::min(o.pitch_px, c.pitch_px) ||
                turn_between(c.axis_rad, o.axis_rad) > widest_turn_rad)
                continue;
            beside.push_back(static_cast<int>(i));
            break;
        }
    }
    return beside;
}

CombChain chain_of(const std::vector<CombCell>& cells, const std::vector<int>& path) {
    CombChain chain;
    for (const int i : path) chain.cells.push_back(cells[static_cast<std::size_t>(i)]);
    double regularity = 0.0;
    double pitches = 0.0;
    for (std::size_t i = 0; i < chain.cells.size(); ++i) {
        regularity += chain.cells[i].regularity;
        if (i == 0) continue;
        const auto& a = chain.cells[i - 1];
        const auto& b = chain.cells[i];
        const double step = std::hypot(b.centre_px.x - a.centre_px.x, b.centre_px.y - a.centre_px.y);
        chain.length_px += step;
        pitches += step / b.pitch_px;
    }
    chain.weight = pitches * regularity / static_cast<double>(chain.cells.size());
    return chain;
}

/// The photo at about the size that is searched first: a halving of it where one comes near enough.
cv::Mat finest_level(const GreyPyramid& pyramid, const CombSearchOptions& options) {
    constexpr double near_enough = 0.03;  // phones save sides of 4000 and 4032 pixels: their half will do
    const cv::Mat& source = level_of_at_least(pyramid, cvRound((1.0 - near_enough) * options.long_side_px));
    const double factor = std::min(options.max_enlargement, static_cast<double>(options.long_side_px) /
                                                                std::max(source.cols, source.rows));
    if (std::abs(factor - 1.0) < near_enough) return source;
    cv::Mat level;
    cv::resize(source, level, {}, factor, factor, factor < 1.0 ? cv::INTER_AREA : cv::INTER_CUBIC);
    return level;
}

std::vector<CombCell> all_cells(const GreyPyramid& pyramid, const CombSearchOptions& options) {
    const double longest = std::max(pyramid.front().cols, pyramid.front().rows);
    cv::Mat level = finest_level(pyramid, options);
    std::vector<CombCell> cells;
    double coherence = fine_coherence;
    while (std::max(level.cols, level.rows) >= 120) {
        const double scale = longest / std::max(level.cols, level.rows);
        const auto found = comb_cells(level, scale, coherence);
        cells.insert(cells.end(), found.begin(), found.end());
        coherence = coarse_coherence;
        cv::Mat half;
        cv::resize(level, half, {}, 0.5, 0.5, cv::INTER_AREA);
        level = half;
    }
    return cells;
}

}  // namespace

std::vector<CombChain> search_combs(const GreyPyramid& pyramid, const CombSearchOptions& options) {
    const auto cells = all_cells(pyramid, options);
    std::vector<int> order(cells.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
        return cells[static_cast<std::size_t>(a)].regularity > cells[static_cast<std::size_t>(b)].regularity;
    });
    std::vector<char> used(cells.size(), 0);
    std::vector<CombChain> chains;
    int seeds = 0;
    for (const int seed : order) {
        if (used[static_cast<std::size_t>(seed)]) continue;
        if (++seeds > most_seeds) break;
        used[static_cast<std::size_t>(seed)] = 1;
        const Heading ahead = heading_of(cells[static_cast<std::size_t>(seed)], {1.0, 1e-3});
        auto back = walk(cells, used, seed, {-ahead.x, -ahead.y});
        const auto forth = walk(cells, used, seed, ahead);
        std::vector<int> path(back.rbegin(), back.rend());
        path.push_back(seed);
        path.insert(path.end(), forth.begin(), forth.end());
        for (const int i : path) used[static_cast<std::size_t>(i)] = 1;
        for (const int i : companions(cells, used, path)) used[static_cast<std::size_t>(i)] = 1;
        CombChain chain = chain_of(cells, path);
        if (chain.weight >= shortest_chain_pitches) chains.push_back(std::move(chain));
    }
    std::stable_sort(chains.begin(), chains.end(),
                     [](const auto& a, const auto& b) { return a.weight > b.weight; });
    if (chains.size() > static_cast<std::size_t>(options.max_chains))
        chains.resize(static_cast<std::size_t>(options.max_chains));
    return chains;
}

}  // namespace ridgetally
