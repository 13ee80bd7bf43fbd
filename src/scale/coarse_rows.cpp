#include "scale/coarse_rows.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/median.h"

namespace ridgetally {
namespace {

// None of these was swept but where it says so.
constexpr double long_side_px = 1000.0;  // of the picture searched: a centimetre of 23 px in 0.7 megapixels
constexpr double blur_px =
    1.3;  // fine marks up to 2.5 px apart vanish; envelopes of their beats are no marks
constexpr float least_slope = 1.5F;  // grey levels a pixel; noise of 4 leaves 0.5 after the blur
constexpr int directions = 90;
constexpr int aligned = 7;  // directions from an edge's gradient to the axis: 14 degrees of slant and noise
constexpr double bin_px = 3.0;     // height of a line of sight; two of them make a band
constexpr int ground_px = 18;      // reach of the local mean that peaks must exceed
constexpr float least_peak = 4.F;  // grey levels, summed over a band and smoothed
constexpr double least_pitch_px = 11.0;
constexpr double most_pitch_px = 90.0;
constexpr double place_share =
    0.05;  // of the spacing: how far an edge may lie from where the last two put it
constexpr double place_px = 1.5;
constexpr int fewest_edges = 5;
constexpr float even_share = 0.3F;     // of the median strength of its edges, for the weakest that counts
constexpr float clutter_share = 0.6F;  // of it, for a peak in between that speaks against the row
constexpr double clutter_weight = 0.5;
constexpr double miss_weight = 1.5;
constexpr std::size_t most_found = 80;
constexpr int most_fellows = 6;  // rows beside a row that are like it: a card has four, cloth and tiles go on
constexpr std::size_t longest_row = 32;  // edges of a row: its ends are found again at full resolution
constexpr std::size_t most_rows = 40;    // tried by the later stages

struct Edgel {
    float x = 0.F;
    float y = 0.F;
    float slope = 0.F;
    float axis_rad = 0.F;  ///< of the gradient, modulo pi
};

/// Places where the blurred picture is steepest along its own gradient.
std::vector<Edgel> edgels_of(const cv::Mat& level) {
    cv::Mat1f blurred;
    level.convertTo(blurred, CV_32F);
    cv::GaussianBlur(blurred, blurred, {}, blur_px, blur_px, cv::BORDER_REPLICATE);
    cv::Mat1f dx;
    cv::Mat1f dy;
    cv::Sobel(blurred, dx, CV_32F, 1, 0, 1, 0.5);
    cv::Sobel(blurred, dy, CV_32F, 0, 1, 1, 0.5);
    cv::Mat1f slopes;
    cv::magnitude(dx, dy, slopes);
    std::vector<Edgel> edgels;
    for (int y = 1; y + 1 < level.rows; ++y)
        for (int x = 1; x + 1 < level.cols; ++x) {
            const float slope = slopes(y, x);
            if (slope < least_slope) continue;
            const float gx = dx(y, x);
            const float gy = dy(y, x);
            const int sx = static_cast<int>(std::lround(gx / slope));
            const int sy = static_cast<int>(std::lround(gy / slope));
            if (slopes(y + sy, x + sx) > slope || slopes(y - sy, x - sx) > slope) continue;
            edgels.push_back({static_cast<float>(x), static_cast<float>(y), slope, std::atan2(gy, gx)});
        }
    return edgels;
}

/// Edges by the direction of their gradient: each list belongs to one of the directions looked along.
std::vector<std::vector<Edgel>> by_direction(const std::vector<Edgel>& edgels) {
    std::vector<std::vector<Edgel>> lists(directions);
    for (const Edgel& e : edgels) {
        const double turn = static_cast<double>(e.axis_rad) / std::numbers::pi + 2.0;  // half turns, positive
        const auto nearest = static_cast<int>(std::lround(turn * directions)) % directions;
        lists[static_cast<std::size_t>(nearest)].push_back(e);
    }
    return lists;
}

struct Peak {
    double at = 0.0;
    float strength = 0.F;
};

/// Places along one band where more edges stand than around.
std::vector<Peak> peaks_of(const std::vector<float>& band) {
    const int n = static_cast<int>(band.size());
    std::vector<double> sums(band.size() + 1, 0.0);
    for (std::size_t i = 0; i < band.size(); ++i) sums[i + 1] = sums[i] + static_cast<double>(band[i]);
    std::vector<Peak> peaks;
    if (sums.back() < fewest_edges * static_cast<double>(least_peak)) return peaks;
    const auto smooth = [&](int i) {
        return (band[static_cast<std::size_t>(i - 2)] + band[static_cast<std::size_t>(i + 2)] +
                2.F * (band[static_cast<std::size_t>(i - 1)] + band[static_cast<std::size_t>(i + 1)]) +
                3.F * band[static_cast<std::size_t>(i)]) /
               9.F;
    };
    float before = 0.F;
    float here = 0.F;
    for (int i = 2; i + 3 < n; ++i) {
        const float after = smooth(i + 1);
        if (here >= before && here > after && here > least_peak) {
            const int from = std::max(0, i - ground_px);
            const int to = std::min(n, i + ground_px + 1);
            const double mean =
                (sums[static_cast<std::size_t>(to)] - sums[static_cast<std::size_t>(from)]) / (to - from);
            const float above = here - static_cast<float>(1.3 * mean);
            const float curve = before - 2.F * here + after;
            if (above > 0.5F * least_peak)
                peaks.push_back({i + static_cast<double>(0.5F * (before - after) / curve), above});
        }
        before = here;
        here = after;
    }
    return peaks;
}

const Peak* nearest(const std::vector<Peak>& peaks, double at, double reach) {
    auto p = std::lower_bound(peaks.begin(), peaks.end(), at - reach,
                              [](const Peak& peak, double v) { return peak.at < v; });
    const Peak* best = nullptr;
    for (; p != peaks.end() && p->at <= at + reach; ++p)
        if (best == nullptr || std::abs(p->at - at) < std::abs(best->at - at)) best = &*p;
    return best;
}

struct Chain {
    std::vector<const Peak*> peaks;
    std::vector<int> index;
    double score = 0.0;
};

/// The row that goes on from two peaks at their distance.
Chain chain_from(const std::vector<Peak>& peaks, const Peak& first, const Peak& second) {
    Chain chain{{&first, &second}, {0, 1}, 0.0};
    double step = second.at - first.at;
    double last = second.at;
    int index = 1;
    for (int missed = 0; missed < 2;) {
        const double reach = std::max(place_px, place_share * step);
        const Peak* next = nearest(peaks, last + step, reach);
        ++index;
        if (next == nullptr || next == chain.peaks.back()) {
            ++missed;
            last += step;
            continue;
        }
        const double seen = (next->at - chain.peaks.back()->at) / (index - chain.index.back());
        step += (seen - step) / std::min<double>(4.0, static_cast<double>(chain.peaks.size()));
        chain.peaks.push_back(next);
        chain.index.push_back(index);
        last = next->at;
        missed = 0;
    }
    return chain;
}

void weigh(Chain& chain, const std::vector<Peak>& peaks) {
    std::vector<double> strengths;
    for (const Peak* p : chain.peaks) strengths.push_back(static_cast<double>(p->strength));
    const auto median = static_cast<float>(median_of(strengths));
    double hits = 0.0;
    for (const Peak* p : chain.peaks) hits += p->strength >= even_share * median ? 1.0 : 0.0;
    double strong = 0.0;
    for (auto p = peaks.begin(); p != peaks.end(); ++p)
        if (p->at > chain.peaks.front()->at && p->at < chain.peaks.back()->at &&
            p->strength >= clutter_share * median)
            strong += 1.0;
    const double missing = chain.index.back() + 1.0 - static_cast<double>(chain.peaks.size());
    const double between = std::max(0.0, strong + 2.0 - static_cast<double>(chain.peaks.size()));
    chain.score = hits - miss_weight * missing - clutter_weight * between;
}

bool alike(const Peak& a, const Peak& b) {
    return std::max(a.strength, b.strength) * even_share <= std::min(a.strength, b.strength);
}

std::vector<Chain> chains_of(const std::vector<Peak>& peaks) {
    std::vector<Chain> chains;
    for (std::size_t i = 0; i < peaks.size(); ++i)
        for (std::size_t j = i + 1; j < peaks.size(); ++j) {
            const double step = peaks[j].at - peaks[i].at;
            if (step < least_pitch_px) continue;
            if (step > most_pitch_px) break;
            const double reach = std::max(place_px, place_share * step);
            if (!alike(peaks[i], peaks[j])) continue;
            if (nearest(peaks, peaks[i].at - step, reach) != nullptr) continue;  // begins further ahead
            if (nearest(peaks, peaks[j].at + step, reach) == nullptr &&
                nearest(peaks, peaks[j].at + 2.0 * step, 2.0 * reach) == nullptr)
                continue;
            Chain chain = chain_from(peaks, peaks[i], peaks[j]);
            if (chain.peaks.size() < fewest_edges) continue;
            weigh(chain, peaks);
            if (chain.score >= fewest_edges - 0.5) chains.push_back(std::move(chain));
        }
    return chains;
}

/// Bands of one direction: edges counted by their place across (rows) and along (columns).
class Sight {
  public:
    Sight(cv::Size size, double axis_rad)
        : cos_(std::cos(axis_rad)),
          sin_(std::sin(axis_rad)),
          half_(0.5 * std::hypot(size.width, size.height)),
          centre_(0.5F * static_cast<float>(size.width), 0.5F * static_cast<float>(size.height)),
          columns_(static_cast<int>(2.0 * half_) + 4),
          rows_(static_cast<int>(2.0 * half_ / bin_px) + 2),
          count_(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns_), 0.F) {}

    void add(const Edgel& e) {
        const double x = static_cast<double>(e.x - centre_.x);
        const double y = static_cast<double>(e.y - centre_.y);
        const double u = x * cos_ + y * sin_ + half_ + 1.0;
        const double w = (y * cos_ - x * sin_ + half_) / bin_px;
        const auto column = static_cast<std::size_t>(u);
        const float right = static_cast<float>(u - static_cast<double>(column)) * e.slope;
        float* to = &count_[static_cast<std::size_t>(w) * static_cast<std::size_t>(columns_) + column];
        to[0] += e.slope - right;
        to[1] += right;
    }

    [[nodiscard]] int rows() const { return rows_; }

    [[nodiscard]] std::vector<float> band(int row) const {
        std::vector<float> sum(static_cast<std::size_t>(columns_));
        const float* a = &count_[static_cast<std::size_t>(row) * sum.size()];
        for (std::size_t i = 0; i < sum.size(); ++i) sum[i] = a[i] + a[i + sum.size()];
        return sum;
    }

    /// Place of the band's left end in the picture.
    [[nodiscard]] cv::Point2d origin(int row) const {
        const double u = -half_ - 1.0;
        const double w = (row + 1.0) * bin_px - half_;
        return {static_cast<double>(centre_.x) + u * cos_ - w * sin_,
                static_cast<double>(centre_.y) + u * sin_ + w * cos_};
    }

  private:
    double cos_;
    double sin_;
    double half_;
    cv::Point2f centre_;
    int columns_;
    int rows_;
    std::vector<float> count_;
};

CoarseRow row_of(Chain chain, const cv::Point2d& origin, double axis_rad, double scale) {
    if (chain.peaks.size() > longest_row) {
        const auto spare = static_cast<std::ptrdiff_t>(chain.peaks.size() - longest_row) / 2;
        chain.peaks = {chain.peaks.begin() + spare, chain.peaks.begin() + spare + longest_row};
        chain.index = {chain.index.begin() + spare, chain.index.begin() + spare + longest_row};
    }
    CoarseRow row;
    const double middle = 0.5 * (chain.peaks.front()->at + chain.peaks.back()->at);
    const auto place = [scale](double v) { return (v + 0.5) * scale - 0.5; };
    row.origin = {place(origin.x + middle * std::cos(axis_rad)),
                  place(origin.y + middle * std::sin(axis_rad))};
    row.axis_rad = axis_rad;
    row.score = chain.score;
    std::vector<double> steps;
    for (std::size_t i = 0; i < chain.peaks.size(); ++i) {
        row.at_px.push_back((chain.peaks[i]->at - middle) * scale);
        row.index.push_back(chain.index[i]);
        if (i > 0) steps.push_back((row.at_px[i] - row.at_px[i - 1]) / (row.index[i] - row.index[i - 1]));
    }
    row.pitch_px = median_of(steps);
    return row;
}

/// Whether two rows are the same edges seen from two neighbouring lines.
bool same(const CoarseRow& a, const CoarseRow& b) {
    if (std::abs(std::log(a.pitch_px / b.pitch_px)) > 0.1) return false;
    if (std::abs(std::remainder(a.axis_rad - b.axis_rad, std::numbers::pi)) > 0.2) return false;
    const double dx = b.origin.x - a.origin.x;
    const double dy = b.origin.y - a.origin.y;
    const double along = dx * std::cos(a.axis_rad) + dy * std::sin(a.axis_rad);
    const double across = dy * std::cos(a.axis_rad) - dx * std::sin(a.axis_rad);
    return std::abs(across) < 0.35 * a.pitch_px && along > a.at_px.front() - a.pitch_px &&
           along < a.at_px.back() + a.pitch_px;
}

std::vector<CoarseRow> without_doubles(const std::vector<CoarseRow>& all) {
    std::vector<CoarseRow> kept;
    for (const CoarseRow& row : all) {
        if (kept.size() == most_found) break;
        if (std::none_of(kept.begin(), kept.end(), [&](const CoarseRow& k) { return same(k, row); }))
            kept.push_back(row);
    }
    return kept;
}

/// Whether two rows run side by side at one spacing.
bool fellows(const CoarseRow& a, const CoarseRow& b) {
    constexpr double spacing = 0.08;
    constexpr double turn_rad = 0.1;
    return std::abs(std::log(a.pitch_px / b.pitch_px)) < spacing &&
           std::abs(std::remainder(a.axis_rad - b.axis_rad, std::numbers::pi)) < turn_rad;
}

/// Rows that do not repeat sideways again and again.
std::vector<CoarseRow> without_lattices(const std::vector<CoarseRow>& rows) {
    std::vector<CoarseRow> kept;
    for (const CoarseRow& row : rows) {
        if (kept.size() == most_rows) break;
        const auto like = std::count_if(rows.begin(), rows.end(),
                                        [&](const CoarseRow& other) { return fellows(row, other); });
        if (like - 1 <= most_fellows) kept.push_back(row);
    }
    return kept;
}

cv::Mat searched(const GreyPyramid& pyramid) {
    const cv::Mat& source = level_of_at_least(pyramid, static_cast<int>(long_side_px));
    const double factor = long_side_px / std::max(source.cols, source.rows);
    if (factor > 0.9) return source;
    cv::Mat level;
    cv::resize(source, level, {}, factor, factor, cv::INTER_AREA);
    return level;
}

}  // namespace

std::vector<CoarseRow> find_coarse_rows(const GreyPyramid& pyramid) {
    const cv::Mat level = searched(pyramid);
    const double scale = static_cast<double>(pyramid.front().cols) / level.cols;
    const auto edgels = by_direction(edgels_of(level));
    std::vector<std::vector<CoarseRow>> found(directions);
    cv::parallel_for_({0, directions}, [&](const cv::Range& range) {
        for (int d = range.start; d < range.end; ++d) {
            const double axis = d * std::numbers::pi / directions;
            Sight sight(level.size(), axis);
            for (int off = -aligned; off <= aligned; ++off)
                for (const Edgel& e : edgels[static_cast<std::size_t>((d + off + directions) % directions)])
                    sight.add(e);
            for (int row = 0; row + 1 < sight.rows(); ++row) {
                const auto peaks = peaks_of(sight.band(row));
                for (const Chain& chain : chains_of(peaks))
                    found[static_cast<std::size_t>(d)].push_back(
                        row_of(chain, sight.origin(row), axis, scale));
            }
        }
    });
    std::vector<CoarseRow> all;
    for (auto& rows : found) all.insert(all.end(), rows.begin(), rows.end());
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.score > b.score; });
    return without_lattices(without_doubles(all));
}

}  // namespace ridgetally
