#include "disc/round_scale.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "disc/strip.h"
#include "disc/strip_fields.h"

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
/// Root of stitch width times row height that the recogniser reads best, px.
constexpr double best_px = 20.0;
constexpr double typical_height = 1.15;  // row height over stitch width, geometric middle of all families
constexpr double scale_step = 1.8;       // a pitch is then within a third of an octave and a half of the best
constexpr int piece_px = 160;
/// Plates, coins and tables stay below; see the tests on things that are not crochet.
constexpr double least_sureness = 0.2;
/// One look is enough where it is as sure as that: of 59 rendered crowns 54 lay above, and the stitch width
/// read there was off by more than a fifth in one of them.
constexpr double plain_sureness = 0.5;
constexpr double rows_seen = 4.0;  // of 20 px: two and a half tall rounds, four short ones

/// Mean turns from a vector to its neighbour, over part of a map.
double turns_a_step(const cv::Mat& field, double from, double to, cv::Point step) {
    std::complex<double> sum;
    const int first = std::max(0, static_cast<int>(from));
    const int last = std::min(field.rows - step.y, static_cast<int>(to));
    for (int y = first; y < last; ++y) {
        const auto* here = field.ptr<cv::Vec2f>(y);
        const auto* there = field.ptr<cv::Vec2f>(y + step.y);
        for (int x = 0; x + step.x < field.cols; ++x) {
            sum += std::complex<double>(there[x + step.x][0], there[x + step.x][1]) *
                   std::conj(std::complex<double>(here[x][0], here[x][1]));
        }
    }
    return std::arg(sum) / turn;
}

/// How much of its sureness a reading keeps whose stitches are not as high as they should be: pairs of tall
/// stitches in one are easily taken for one of twice the width. Rounds of other heights may lie between them,
/// so that half a stitch's height off still counts for two thirds. Not swept.
double credit(const RoundScale& seen, const RoundScaleOptions& options) {
    constexpr double log_std = 0.5;
    if (!options.height_over_width) return seen.sureness;
    const double off = std::log(seen.row_mm / seen.stitch_mm / *options.height_over_width) / log_std;
    return seen.sureness * std::exp(-0.5 * off * off);
}

/// Columns of the strip where a piece shows nothing but edge.
std::vector<int> good_places(const DiscOutline& outline, int columns, int piece) {
    std::vector<std::pair<int, int>> hidden;  // hidden places in the piece, first column
    const auto n = static_cast<int>(outline.places.size());
    constexpr int tries = 16;
    for (int k = 0; k < tries; ++k) {
        const int first = columns * k / tries;
        int count = 0;
        for (int x = 0; x < piece; x += 4) {
            const int i = static_cast<int>(static_cast<long>((first + x) % columns) * n / columns);
            count += outline.places[static_cast<std::size_t>(i)] == RimPlace::edge ? 0 : 1;
        }
        hidden.emplace_back(count, first);
    }
    const int least = std::min_element(hidden.begin(), hidden.end())->first;
    std::vector<int> good;
    for (const auto& [count, first] : hidden) {
        if (count == least) good.push_back(first);
    }
    // Two, as far apart as the list has them.
    return good.size() < 2 ? good : std::vector<int>{good.front(), good[good.size() / 2]};
}

/// What one piece of the rim shows at one scale.
std::optional<RoundScale> glimpse(const Recogniser& recogniser, const GreyPyramid& photo,
                                  const DiscOutline& outline, double px_per_mm, std::size_t place) {
    RoundStripOptions options;
    options.px_per_mm = px_per_mm;
    options.outside_mm = 0.8 * best_px / px_per_mm;
    options.inside_mm = rows_seen * best_px / px_per_mm;
    const RoundStrip strip = round_strip(photo, outline, options);
    const auto places = good_places(outline, strip.grey.cols, piece_px);
    const StripFields fields =
        read_strip_piece(recogniser, strip, places[std::min(place, places.size() - 1)], piece_px);
    const double depth = 0.5 * 2.5 * best_px;
    const double sureness = fields.sureness(depth);
    const double row = pitch_down(fields.row, fields.rim_row + 2.0, fields.rim_row + depth);
    if (row <= 0.0) return std::nullopt;
    // Of the last round alone: those below have fewer stitches around.
    const double stitch = pitch_along(fields.stitch, fields.rim_row + 0.1 * row, fields.rim_row + row);
    if (stitch <= 0.0) return std::nullopt;
    return RoundScale{2.0 / px_per_mm * stitch, 2.0 / px_per_mm * row, sureness};
}

}  // namespace

double pitch_down(const cv::Mat& field, double from, double to) {
    const double turns = -turns_a_step(field, from, to, {0, 1});
    return turns > 0.0 ? 1.0 / turns : 0.0;
}

double pitch_along(const cv::Mat& field, double from, double to) {
    const double turns = turns_a_step(field, from, to, {1, 0});
    return turns > 0.0 ? 1.0 / turns : 0.0;
}

std::optional<RoundScale> find_round_scale(const Recogniser& recogniser, const GreyPyramid& photo,
                                           const DiscOutline& outline, const RoundScaleOptions& options) {
    const double circumference_mm = std::numbers::pi * outline.area_diameter_mm();
    constexpr double fewest_stitches = 8.0;
    const double most_mm = std::min(options.most_stitch_mm, circumference_mm / fewest_stitches);
    std::optional<RoundScale> best;
    for (std::size_t place = 0; place < 2; ++place) {
        for (double stitch_mm = 1.3 * options.least_stitch_mm; stitch_mm < 1.2 * most_mm;
             stitch_mm *= scale_step) {
            const double px_per_mm = best_px / std::sqrt(typical_height) / stitch_mm;
            if (px_per_mm > 2.0 * outline.px_per_mm) continue;  // finer than the photo shows
            const auto seen = glimpse(recogniser, photo, outline, px_per_mm, place);
            if (seen && (!best || credit(*seen, options) > credit(*best, options))) best = seen;
        }
        if (best && best->sureness > plain_sureness) break;
    }
    if (!best || best->sureness < least_sureness) return std::nullopt;
    return best;
}

}  // namespace ridgetally
