#include "scale/comb_search.h"

#include <algorithm>
#include <cmath>
#include <compare>
#include <numbers>
#include <numeric>
#include <opencv2/imgproc.hpp>
#include <optional>
#include <utility>

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

/// Cells, sorted by their height in the photo so that those near another are found quickly.
class CellMap {
  public:
    explicit CellMap(std::vector<CombCell> cells) : cells_(std::move(cells)), used_(cells_.size(), 0) {
        by_y_.reserve(cells_.size());
        for (std::size_t i = 0; i < cells_.size(); ++i) by_y_.push_back({cells_[i].centre_px.y, i});
        std::sort(by_y_.begin(), by_y_.end());
    }

    [[nodiscard]] const CombCell& operator[](std::size_t i) const { return cells_[i]; }
    [[nodiscard]] std::size_t size() const { return cells_.size(); }
    [[nodiscard]] bool used(std::size_t i) const { return used_[i] != 0; }
    void use(std::size_t i) { used_[i] = 1; }

    /// Calls `visit` with each unused cell whose centre lies within `reach` of `at` along both axes.
    template <typename Visit>
    void visit_unused(const PhotoPoint& at, double reach, Visit visit) const {
        const auto above = [](const Place& p, double y) { return p.y < y; };
        auto place = std::lower_bound(by_y_.begin(), by_y_.end(), at.y - reach, above);
        for (; place != by_y_.end() && place->y <= at.y + reach; ++place)
            if (used_[place->cell] == 0 && std::abs(cells_[place->cell].centre_px.x - at.x) <= reach)
                visit(place->cell);
    }

  private:
    struct Place {
        double y = 0.0;
        std::size_t cell = 0;

        auto operator<=>(const Place&) const = default;
    };

    std::vector<CombCell> cells_;
    std::vector<char> used_;
    std::vector<Place> by_y_;
};

/// The cell that carries the chain on from `from`; of equally good ones the first.
std::optional<std::size_t> next_cell(const CellMap& cells, std::size_t from, const Heading& heading) {
    const CombCell& here = cells[from];
    const double reach = reach_pitches * here.pitch_px;
    std::optional<std::size_t> best;
    double best_cost = 1e30;
    // A cell lies at most `reach` ahead and `widest` aside.
    const double widest = here.pitch_px + 0.15 * reach;
    cells.visit_unused(here.centre_px, std::hypot(reach, widest) + 1.0, [&](std::size_t i) {
        const CombCell& c = cells[i];
        const double dx = c.centre_px.x - here.centre_px.x;
        const double dy = c.centre_px.y - here.centre_px.y;
        const double along = dx * heading.x + dy * heading.y;
        if (along < 0.8 * here.pitch_px || along > reach) return;
        const double lateral = std::abs(dy * heading.x - dx * heading.y);
        if (lateral > here.pitch_px + 0.15 * along) return;
        const double misfit = std::abs(std::log(c.pitch_px / here.pitch_px));
        if (misfit > widest_log_pitch || turn_between(c.axis_rad, here.axis_rad) > widest_turn_rad) return;
        const double cost = along + 2.0 * lateral + 20.0 * here.pitch_px * misfit;
        if (cost < best_cost || (cost == best_cost && i < best)) {
            best_cost = cost;
            best = i;
        }
    });
    return best;
}

std::vector<std::size_t> walk(const CellMap& cells, std::size_t seed, Heading heading) {
    std::vector<std::size_t> path;
    std::size_t at = seed;
    while (const auto next = next_cell(cells, at, heading)) {
        at = *next;
        path.push_back(at);
        const Heading h = heading_of(cells[at], heading);
        heading = {0.7 * heading.x + 0.3 * h.x, 0.7 * heading.y + 0.3 * h.y};
        const double norm = std::hypot(heading.x, heading.y);
        heading = {heading.x / norm, heading.y / norm};
    }
    return path;
}

/// Marks cells beside the path that tell the same comb as used, so that they seed no chain of their own. A
/// coarse comb, of fabric say, has no say over a fine one further away than the fine one's own pitch makes
/// near.
void use_companions(CellMap& cells, const std::vector<std::size_t>& path) {
    for (const std::size_t p : path) {
        const CombCell& o = cells[p];
        cells.visit_unused(o.centre_px, 3.0 * o.pitch_px + 1.0, [&](std::size_t i) {
            const CombCell& c = cells[i];
            const double apart = std::hypot(c.centre_px.x - o.centre_px.x, c.centre_px.y - o.centre_px.y);
            if (apart <= 3.0 * std::min(o.pitch_px, c.pitch_px) &&
                turn_between(c.axis_rad, o.axis_rad) <= widest_turn_rad)
                cells.use(i);
        });
    }
}

CombChain chain_of(const CellMap& cells, const std::vector<std::size_t>& path) {
    CombChain chain;
    for (const std::size_t i : path) chain.cells.push_back(cells[i]);
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
    CellMap cells(all_cells(pyramid, options));
    std::vector<std::size_t> order(cells.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return cells[a].regularity > cells[b].regularity; });
    std::vector<CombChain> chains;
    int seeds = 0;
    for (const std::size_t seed : order) {
        if (cells.used(seed)) continue;
        if (++seeds > most_seeds) break;
        cells.use(seed);
        const Heading ahead = heading_of(cells[seed], {1.0, 1e-3});
        const auto back = walk(cells, seed, {-ahead.x, -ahead.y});
        const auto forth = walk(cells, seed, ahead);
        std::vector<std::size_t> path(back.rbegin(), back.rend());
        path.push_back(seed);
        path.insert(path.end(), forth.begin(), forth.end());
        for (const std::size_t i : path) cells.use(i);
        use_companions(cells, path);
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
