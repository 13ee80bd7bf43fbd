#include "disc/stitch_count.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
/// Phases are told apart to a twentieth of a stitch.
constexpr int bins_per_turn = 20;
/// A round may run ahead of even spacing by so many stitches, and lag as far behind.
constexpr int most_turns_off = 2;
constexpr int even_bin = most_turns_off * bins_per_turn;  ///< of even spacing, in the middle
constexpr int bins = 2 * even_bin + 1;
/// Steps of the path between columns, in bins.
constexpr int reach = 3;
/// Columns a stitch that the path is computed on: the phase is smooth between them.
constexpr double columns_a_stitch = 10.0;

/// The phase against even spacing, averaged to about ten columns a stitch.
ClosedPhase relative_to(const ClosedPhase& phase, int stitches, int columns) {
    ClosedPhase result(static_cast<std::size_t>(columns));
    const auto n = static_cast<double>(phase.size());
    std::vector<int> counts(static_cast<std::size_t>(columns), 0);
    for (std::size_t i = 0; i < phase.size(); ++i) {
        const auto at = static_cast<std::size_t>(static_cast<double>(i) * columns / n);
        result[at] += phase[i] * std::polar(1.0, -turn * stitches * static_cast<double>(i) / n);
        ++counts[at];
    }
    for (std::size_t k = 0; k < result.size(); ++k) result[k] /= std::max(1, counts[k]);
    return result;
}

/// A path over the columns and back to where it began.
struct ClosedPath {
    double score = -1e300;
    std::vector<int> bins;  ///< one a column
};

ClosedPath best_closed_path(const cv::Mat& gain, int start, const std::vector<double>& price) {
    std::vector<double> best(bins, -1e300);
    std::vector<double> next(bins);
    cv::Mat from(gain.rows + 1, bins, CV_8S, cv::Scalar(0));
    best[static_cast<std::size_t>(start)] = gain.at<double>(0, start);
    for (int x = 1; x <= gain.rows; ++x) {
        const auto* row = gain.ptr<double>(x % gain.rows);
        for (int b = 0; b < bins; ++b) {
            double top = -1e300;
            for (int d = -reach; d <= reach; ++d) {
                const int before = b + d;
                if (before < 0 || before >= bins) continue;
                const double value =
                    best[static_cast<std::size_t>(before)] - price[static_cast<std::size_t>(std::abs(d))];
                if (value <= top) continue;
                top = value;
                from.at<schar>(x, b) = static_cast<schar>(d);
            }
            next[static_cast<std::size_t>(b)] = top + (x < gain.rows ? row[b] : 0.0);
        }
        best.swap(next);
    }
    ClosedPath path{best[static_cast<std::size_t>(start)],
                    std::vector<int>(static_cast<std::size_t>(gain.rows))};
    int bin = start;
    for (int x = gain.rows; x > 0; --x) {
        bin += from.at<schar>(x, bin);
        path.bins[static_cast<std::size_t>(x - 1)] = bin;
    }
    return path;
}

ClosedPath path_for(const ClosedPhase& phase, int stitches, const CountOptions& options) {
    const int columns =
        std::min<int>(static_cast<int>(phase.size()), static_cast<int>(columns_a_stitch * stitches));
    const ClosedPhase relative = relative_to(phase, stitches, columns);
    const double a_stitch = static_cast<double>(columns) / stitches;
    cv::Mat gain(columns, bins, CV_64F);
    for (int x = 0; x < columns; ++x) {
        const auto& z = relative[static_cast<std::size_t>(x)];
        for (int b = 0; b < bins; ++b) {
            const double angle = turn * (b - even_bin) / bins_per_turn;
            gain.at<double>(x, b) =
                options.evidence / a_stitch * (z.real() * std::cos(angle) + z.imag() * std::sin(angle));
        }
    }
    // A width off by a fraction moves the phase by as much of a turn over the stitch: a random walk.
    std::vector<double> price;
    for (int d = 0; d <= reach; ++d) {
        const double turns = static_cast<double>(d) / bins_per_turn;
        price.push_back(0.5 * a_stitch * turns * turns / (options.width_scatter * options.width_scatter));
    }
    // The path may begin anywhere within a turn of even spacing; a start is tried where the phase points.
    ClosedPath best;
    const double angle = std::arg(relative.front()) / turn;
    for (const double off : {-1.0, 0.0, 1.0}) {
        const int start = even_bin + static_cast<int>(std::lround((angle + off) * bins_per_turn));
        if (start < 0 || start >= bins) continue;
        ClosedPath path = best_closed_path(gain, start, price);
        if (path.score > best.score) best = std::move(path);
    }
    return best;
}

/// The round begun where the phase is surest, since a path must pass through its beginning.
struct TurnedPhase {
    ClosedPhase phase;
    std::size_t begin = 0;
};

TurnedPhase from_surest(const ClosedPhase& phase) {
    const auto surest = std::max_element(
        phase.begin(), phase.end(), [](const auto& a, const auto& b) { return std::abs(a) < std::abs(b); });
    TurnedPhase turned{phase, static_cast<std::size_t>(surest - phase.begin())};
    std::rotate(turned.phase.begin(), turned.phase.begin() + static_cast<std::ptrdiff_t>(turned.begin),
                turned.phase.end());
    return turned;
}

}  // namespace

ClosedPhase phase_along(const cv::Mat& field, double from, double to) {
    ClosedPhase result(static_cast<std::size_t>(field.cols));
    double total = 0.0;
    for (int y = std::max(0, static_cast<int>(from)); y < std::min<double>(field.rows, to); ++y) {
        const double part = std::min<double>(to, y + 1) - std::max<double>(from, y);
        if (part <= 0.0) continue;
        total += part;
        const auto* row = field.ptr<cv::Vec2f>(y);
        for (int x = 0; x < field.cols; ++x)
            result[static_cast<std::size_t>(x)] += part * std::complex<double>(row[x][0], row[x][1]);
    }
    for (auto& z : result) z /= std::max(1e-9, total);
    return result;
}

std::vector<CountScore> score_counts(const ClosedPhase& phase, int least, int most,
                                     const CountOptions& options) {
    if (phase.empty() || least < 1 || most < least) throw std::invalid_argument("score_counts: nothing");
    const ClosedPhase turned = from_surest(phase).phase;
    std::vector<CountScore> scores;
    for (int k = least; k <= most; ++k) scores.push_back({k, path_for(turned, k, options).score});
    return scores;
}

std::vector<double> stitch_places(const ClosedPhase& phase, int stitches, const CountOptions& options) {
    if (phase.empty() || stitches < 1) throw std::invalid_argument("stitch_places: nothing");
    const TurnedPhase turned = from_surest(phase);
    const ClosedPath path = path_for(turned.phase, stitches, options);
    const auto columns = static_cast<double>(path.bins.size());
    const double first = static_cast<double>(turned.begin) / static_cast<double>(phase.size());
    // Turns of the phase at a column; a stitch begins half a turn from its middle.
    const auto turns = [&](std::size_t x) {
        const double off = static_cast<double>(path.bins[x % path.bins.size()] - even_bin) / bins_per_turn;
        return stitches * static_cast<double>(x) / columns + off + 0.5;
    };
    std::vector<double> places;
    double done = turns(0);
    for (std::size_t x = 1; x <= path.bins.size(); ++x) {
        const double now = x < path.bins.size() ? turns(x) : turns(0) + stitches;
        for (double whole = std::floor(done) + 1.0; whole <= now; whole += 1.0) {
            const double f = (whole - done) / std::max(1e-9, now - done);
            const double at = first + (static_cast<double>(x) - 1.0 + f) / columns;
            places.push_back(at - std::floor(at));
        }
        done = std::max(done, now);
    }
    std::sort(places.begin(), places.end());
    return places;
}

}  // namespace ridgetally
