#include "disc/radial_count.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "disc/strip.h"
#include "disc/strip_fields.h"

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
constexpr double best_px = 21.0;  // root of stitch width times row height
constexpr int piece_px = 160;
/// Outer over inner radius of a piece: stitches in it are then drawn out or pressed by half at most.
constexpr double most_ratio = 2.2;

/// Mean vector of every row of the map, over its middle half.
std::vector<std::complex<double>> row_vectors(const cv::Mat& field) {
    std::vector<std::complex<double>> result;
    for (int y = 0; y < field.rows; ++y) {
        std::complex<double> sum;
        const auto* row = field.ptr<cv::Vec2f>(y);
        for (int x = field.cols / 4; x < field.cols * 3 / 4; ++x)
            sum += std::complex<double>(row[x][0], row[x][1]);
        result.push_back(sum / (0.5 * field.cols));
    }
    return result;
}

/// Turns of the phase at a vector, growing inwards; whole at a round's foot.
double turns_of(const std::complex<double>& z) { return -std::arg(z) / turn; }

struct Piece {
    std::vector<double> radius_mm;
    std::vector<std::complex<double>> vectors;
};

Piece read_piece(const Recogniser& recogniser, const GreyPyramid& photo, const DiscOutline& outline,
                 const RoundScale& scale, double at_turn, double outer_mm, double inner_mm, double rim_mm) {
    RoundStripOptions options;
    options.px_per_mm = best_px / std::sqrt(scale.stitch_mm * scale.row_mm);
    options.outside_mm = outer_mm - rim_mm;
    options.inside_mm = rim_mm - inner_mm;
    options.true_at = std::sqrt(outer_mm * std::max(inner_mm, 1e-6)) / rim_mm;
    const RoundStrip strip = round_strip(photo, outline, options);
    const int first = static_cast<int>(at_turn * strip.grey.cols) - piece_px / 2;
    const StripFields fields = read_strip_piece(recogniser, strip, first, piece_px);
    Piece piece;
    piece.vectors = row_vectors(fields.row);
    for (std::size_t y = 0; y < piece.vectors.size(); ++y) {
        const double row = 2.0 * static_cast<double>(y) + 0.5;
        piece.radius_mm.push_back(strip.rim_mm - (row - strip.rim_row) / strip.px_per_mm);
    }
    return piece;
}

}  // namespace

std::optional<RadialPath> radial_path(const Recogniser& recogniser, const GreyPyramid& photo,
                                      const DiscOutline& outline, const RoundScale& scale, double at_turn) {
    const double rim_mm = 0.5 * outline.area_diameter_mm();
    const double row_mm = scale.row_mm;
    RadialPath path;
    double outer_mm = rim_mm + std::min(0.8 * row_mm, 8.0);
    double sure = 0.0;
    double from_mm = rim_mm - 0.5 * row_mm;
    while (from_mm > row_mm) {
        const double inner_mm = std::max({outer_mm / most_ratio, outer_mm - 5.0 * row_mm, 0.5 * row_mm});
        const Piece piece =
            read_piece(recogniser, photo, outline, scale, at_turn, outer_mm, inner_mm, rim_mm);
        const double last_mm = std::max(inner_mm + 0.3 * row_mm, row_mm);
        for (std::size_t y = 0; y < piece.vectors.size(); ++y) {
            const double r = piece.radius_mm[y];
            if (r > from_mm || r < last_mm) continue;
            double passed = turns_of(piece.vectors[y]);
            if (path.passed.empty()) {
                passed -= std::floor(passed);  // half-way down the last round
            } else {
                const double step = (path.radius_mm.back() - r) / row_mm;
                passed += std::round(path.passed.back() + step - passed);
            }
            path.radius_mm.push_back(r);
            path.passed.push_back(passed);
            sure += std::abs(piece.vectors[y]);
        }
        if (path.radius_mm.empty()) return std::nullopt;
        if (path.radius_mm.back() >= from_mm) break;  // nothing new: the centre
        from_mm = path.radius_mm.back();
        outer_mm = from_mm + 0.4 * row_mm;
        if (last_mm <= row_mm) break;
    }
    if (path.passed.size() < 4) return std::nullopt;
    path.sureness = sure / static_cast<double>(path.passed.size());
    return path;
}

}  // namespace ridgetally
