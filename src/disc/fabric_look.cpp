#include "disc/fabric_look.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "core/median.h"
#include "disc/strip.h"

namespace ridgetally {
namespace {

constexpr std::size_t parts = 12;

/// Rows of a picture, from `from` to before `to`.
struct Rows {
    int from = 0;
    int to = 0;
};

/// Mean and standard deviation of a twelfth of the turn.
struct Part {
    double mean = 0.0;
    double std = 0.0;
};

/// Of every twelfth of the turn; none where less than half of one shows the edge.
using Parts = std::array<std::optional<Part>, parts>;

/// `picture`: CV_32FC1, its columns all the way round.
Parts parts_of(const DiscOutline& outline, const cv::Mat& picture, const Rows& rows) {
    struct Sums {
        double values = 0.0;
        double squares = 0.0;
        std::size_t columns = 0;
    };
    std::array<Sums, parts> sums;
    const std::size_t places = outline.places.size();
    const auto columns = static_cast<std::size_t>(picture.cols);
    const int height = rows.to - rows.from;
    for (std::size_t x = 0; x < columns && height > 0; ++x) {
        if (outline.places[x * places / columns] != RimPlace::edge) continue;
        Sums& sum = sums[x * parts / columns];
        ++sum.columns;
        for (int y = rows.from; y < rows.to; ++y) {
            const double value = picture.at<float>(y, static_cast<int>(x));
            sum.values += value;
            sum.squares += value * value;
        }
    }
    Parts result;
    for (std::size_t k = 0; k < parts; ++k) {
        const Sums& sum = sums[k];
        if (2 * sum.columns * parts <= columns) continue;
        const double n = static_cast<double>(sum.columns) * height;
        const double mean = sum.values / n;
        result[k] = Part{mean, std::sqrt(std::max(0.0, sum.squares / n - mean * mean))};
    }
    return result;
}

Rows beyond_edge(const StripFields& fields) { return {0, static_cast<int>(0.5 * fields.rim_row)}; }

/// What the edge's own pixels say is of both sides: rows of the maps left out.
constexpr int edge_rows = 4;

double least_inside(const DiscOutline& outline, const StripFields& fields) {
    const Rows rows{static_cast<int>(fields.rim_row) + edge_rows, fields.fabric.rows};
    std::optional<double> least;
    for (const auto& part : parts_of(outline, fields.fabric, rows)) {
        if (part) least = std::min(least.value_or(1.0), part->mean);
    }
    return least.value_or(0.0);
}

/// Whether the two sides of the edge are of one brightness: what lies beyond is then the same piece.
bool alike(const Part& inside, const Part& outside) {
    constexpr double clear_stds = 2.0;  // of both together; not swept
    return std::abs(inside.mean - outside.mean) < clear_stds * (inside.std + outside.std);
}

/// As fabric_outside, but for what is surely another piece: beside the disc or under it, and so seen along a
/// part of the edge, where a stripe of another colour goes all round.
double own_fabric_outside(const DiscOutline& outline, const RoundStrip& strip, const StripFields& fields) {
    const int rim = static_cast<int>(strip.rim_row);
    const Parts fabric = parts_of(outline, fields.fabric, beyond_edge(fields));
    const Parts inner = parts_of(outline, strip.grey, {rim + 2 * edge_rows, strip.grey.rows});
    const Parts outer = parts_of(outline, strip.grey, {0, rim / 2});
    double most = 0.0;
    std::vector<double> all;
    for (std::size_t k = 0; k < parts; ++k) {
        if (!fabric[k] || !inner[k] || !outer[k]) continue;
        all.push_back(fabric[k]->mean);
        if (alike(*inner[k], *outer[k])) most = std::max(most, fabric[k]->mean);
    }
    return std::max(most, median_of(all));
}

double rows_along(const StripFields& fields) {
    const int first = static_cast<int>(fields.rim_row) + edge_rows;
    double total = 0.0;
    for (int part = 0; part < static_cast<int>(parts); ++part) {
        const int from = part * fields.row.cols / static_cast<int>(parts);
        const int to = (part + 1) * fields.row.cols / static_cast<int>(parts);
        for (int y = first; y < fields.row.rows; ++y) {
            const cv::Scalar sum = cv::sum(fields.row(cv::Rect(from, y, to - from, 1)));
            total += std::hypot(sum[0], sum[1]);
        }
    }
    return total / std::max(1, (fields.row.rows - first) * fields.row.cols);
}

/// The outer part of the disc at the scale at which two pieces of it, opposite each other, show the most
/// fabric; none where the photo is too coarse for any.
std::optional<RoundStrip> strip_of_most_fabric(const Recogniser& recogniser, const GreyPyramid& photo,
                                               const DiscOutline& outline) {
    // Stitches of 20 px are what the recogniser reads best, and so broad; steps as find_round_scale has them.
    constexpr double best_px = 20.0;
    constexpr double finest_mm = 3.1;
    constexpr double scale_step = 1.8;
    constexpr double fewest_stitches = 8.0;
    constexpr int piece_px = 160;
    const double coarsest_mm = std::numbers::pi * outline.area_diameter_mm() / fewest_stitches;
    std::optional<RoundStrip> best;
    double most = 0.0;
    for (double stitch_mm = finest_mm; stitch_mm < coarsest_mm; stitch_mm *= scale_step) {
        RoundStripOptions options;
        options.px_per_mm = best_px / stitch_mm;
        if (options.px_per_mm > 2.0 * outline.px_per_mm) continue;  // finer than the photo shows
        options.outside_mm = 1.5 * stitch_mm;
        options.inside_mm = std::min(4.0 * stitch_mm, 0.45 * outline.area_diameter_mm());
        RoundStrip strip = round_strip(photo, outline, options);
        double fabric = 0.0;
        for (const int first : {0, strip.grey.cols / 2}) {
            const StripFields fields = read_strip_piece(recogniser, strip, first, piece_px);
            const int inside = static_cast<int>(fields.rim_row) + edge_rows;
            fabric += cv::mean(fields.fabric.rowRange(inside, fields.fabric.rows))[0];
        }
        if (fabric <= most) continue;
        most = fabric;
        best = std::move(strip);
    }
    return best;
}

}  // namespace

double fabric_outside(const DiscOutline& outline, const StripFields& fields) {
    double most = 0.0;
    for (const auto& part : parts_of(outline, fields.fabric, beyond_edge(fields))) {
        if (part) most = std::max(most, part->mean);
    }
    return most;
}

FabricLook look_for_fabric(const Recogniser& recogniser, const GreyPyramid& photo,
                           const DiscOutline& outline) {
    const auto strip = strip_of_most_fabric(recogniser, photo, outline);
    if (!strip) return {};
    const StripFields fields = read_strip(recogniser, *strip);
    return {least_inside(outline, fields), own_fabric_outside(outline, *strip, fields), rows_along(fields)};
}

// Of drawn things that are round or cut round, 28 balls of yarn had 0.24 to 0.97 inside and 0.10 to 0.32
// along the rounds; brick walls, baskets and cloth up to 0.91 and 0.11, plates and coils of rope up to 0.02
// inside. Crowns in noise that hid their stitches had 0.63 to 0.92 and 0.25 to 0.80. A photographed one of
// black fuzzy yarn had 0.91 and 0.30, as a ball of yarn has: that does not decide.
bool surely_fabric(const FabricLook& look) {
    constexpr double least_fabric_inside = 0.8;
    constexpr double least_rows_along = 0.4;
    return look.least_inside >= least_fabric_inside && look.rows_along >= least_rows_along &&
           look.most_outside <= most_fabric_outside;
}

}  // namespace ridgetally
