#include "pipeline/one_piece.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <sstream>

#include "recogniser/scan.h"

namespace ridgetally {
namespace {

/// As in the second look: eight stitches of the best shown width and some more.
constexpr int tile_side_px = 128;
/// Stitch pitches of the two ends, one over the other. Of 120 drawn swatches (told the stitch) the largest
/// was 1.10; of 12 pairs that touched and were read as one piece, each 1.6 times as wide or narrow as its
/// neighbour, the smallest 1.50. The bound is the geometric middle.
constexpr double one_gauge = 1.28;
/// Of an end that has a say: all ends of those swatches and pairs had 0.77 and more.
constexpr double least_stitch_score = 0.6;
constexpr double least_fabric = 0.5;  // as in the second look
/// From one scale to the next: of other work in the same photo that is too fine or too coarse to be seen at
/// the scale of the first. Not swept.
constexpr double other_scale = 1.6;

struct Ends {
    cv::Point2d first_px, second_px;
};

/// Middles of the two halves of the mask along the axis of its largest moment.
std::optional<Ends> ends_of(const cv::Mat& mask) {
    const cv::Moments m = cv::moments(mask, true);
    if (m.m00 <= 0.0) return std::nullopt;
    const cv::Point2d middle(m.m10 / m.m00, m.m01 / m.m00);
    const double axis_rad = 0.5 * std::atan2(2.0 * m.mu11, m.mu20 - m.mu02);
    const cv::Point2d axis(std::cos(axis_rad), std::sin(axis_rad));
    cv::Point2d sums[2];
    double counts[2] = {0.0, 0.0};
    for (int y = 0; y < mask.rows; ++y) {
        for (int x = 0; x < mask.cols; ++x) {
            if (mask.at<uchar>(y, x) == 0) continue;
            const cv::Point2d at(x, y);
            const int half = (at - middle).dot(axis) < 0.0 ? 0 : 1;
            sums[half] += at;
            counts[half] += 1.0;
        }
    }
    if (counts[0] == 0.0 || counts[1] == 0.0) return std::nullopt;
    return Ends{sums[0] / counts[0], sums[1] / counts[1]};
}

bool clear(const Glimpse& seen) {
    return seen.stitch_score >= least_stitch_score && seen.fabric >= least_fabric;
}

double ratio_of(const Glimpse& a, const Glimpse& b) {
    return std::max(a.stitch_pitch_px / b.stitch_pitch_px, b.stitch_pitch_px / a.stitch_pitch_px);
}

/// Looks of the scout at places of the fabric.
class Looks {
  public:
    Looks(const Recogniser& recogniser, const FabricPatch& patch, const ClaimedReading& claim)
        : recogniser_(recogniser),
          grey_(unit_grey(patch.grey)),
          mask_(patch.mask),
          direction_rad_(claim.row_direction_rad) {
        scale_ = best_shown_pitch_px / claim.pitch_px();
    }

    /// As the claim has it.
    [[nodiscard]] Glimpse at_first_sight(const cv::Point2d& place_px) const {
        return at(place_px, direction_rad_, scale_);
    }

    /// As another place was looked at.
    [[nodiscard]] Glimpse again(const cv::Point2d& place_px, const Glimpse& other) const {
        return at(place_px, other.frame.direction_rad, other.frame.tile_from_picture);
    }

    /// The better one of both ways up, since which way the stitches stand is open: at the scale that shows
    /// the claim or, where nothing is clear there, at the scales that show finer and coarser work.
    [[nodiscard]] Glimpse clearest(const cv::Point2d& place_px) const {
        Glimpse best;
        for (const double step : {1.0, other_scale, 1.0 / other_scale}) {
            for (const double turn : {0.0, std::numbers::pi}) {
                const Glimpse seen = at(place_px, direction_rad_ + turn, scale_ * step);
                if (seen.score > best.score) best = seen;
            }
            if (clear(best)) break;
        }
        return best;
    }

  private:
    [[nodiscard]] Glimpse at(const cv::Point2d& place_px, double direction_rad, double scale) const {
        const TileFrame frame{place_px, direction_rad, scale, tile_side_px};
        return read_tile(recogniser_, grey_, mask_, frame, Sight::scout).glimpse;
    }

    const Recogniser& recogniser_;
    cv::Mat grey_;
    const cv::Mat& mask_;
    double direction_rad_ = 0.0;
    double scale_ = 1.0;
};

}  // namespace

bool ends_differ(const ClaimedReading& claim, const LatticeSearch& search, const Knowledge& knowledge,
                 Trace& trace) {
    const Recogniser* recogniser = knowledge.recogniser.get();
    const auto ends = ends_of(search.patch.mask);
    if (!recogniser || !ends) return false;
    const Looks looks(*recogniser, search.patch, claim);
    // Mostly one look at either end, not turned, shows the same.
    Glimpse first = looks.at_first_sight(ends->first_px);
    if (!clear(first)) first = looks.clearest(ends->first_px);
    if (!clear(first)) return false;
    Glimpse second = looks.again(ends->second_px, first);
    if (clear(second) && ratio_of(first, second) <= one_gauge) return false;
    first = looks.clearest(ends->first_px);
    second = looks.clearest(ends->second_px);
    if (!clear(first) || !clear(second)) return false;
    std::ostringstream line;
    line << "ends: stitches of " << first.stitch_pitch_px / search.patch.px_per_mm << " and "
         << second.stitch_pitch_px / search.patch.px_per_mm << " mm";
    trace.note(line.str());
    return ratio_of(first, second) > one_gauge;
}

}  // namespace ridgetally
