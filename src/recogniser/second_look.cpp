#include "recogniser/second_look.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "recogniser/group.h"

namespace ridgetally {
namespace {

constexpr int side_px = 128;  // 160 and 192 confirm the same readings and cost up to twice as much
// Of 94 rendered swatches that the plain search read with the stitch told, the right readings scored 0.70 or
// more and one 0.33; three wrong ones, not noticed otherwise, 0. Of 24 photographs and ray-traced pictures,
// all read rightly, 23 scored 0.50 or more and one was not seen at all. Cloth, walls and the like that the
// plain search read scored up to 0.39, drawn nets more. Not swept.
constexpr double least_score = 0.3;
constexpr double most_other = 0.5;    // chance of something else: more likely than all stitches together
constexpr double same_stitch = 1.25;  // nearer than the ratio of any two readings that are told apart
constexpr double least_fabric = 0.5;
constexpr double same_row = 1.25;
// What the scout sees as clearly, the larger network need not look at. Of 290 looks at swatches read with the
// stitch told (240 drawn, 162 photographs turned, mirrored, scaled and cut; those that needed one) 228 were
// as clear; the larger one refuted none of them that was wrong, but two that were right. Of 287 looks with
// another stitch told, two: one read rightly, one with half the rows that the larger one let pass as well.
constexpr double clear_score = 0.75;
constexpr double clear_row_ratio = 1.15;
constexpr double least_row_score = 0.6;  // of rows that have a say, see confirm.cpp

bool confirms(const Glimpse& seen, const ClaimedReading& claim) {
    const double ratio = seen.stitch_pitch_px / claim.stitch_pitch_px;
    return seen.score >= least_score && seen.fabric >= least_fabric &&
           seen.kinds.family.back() < most_other && ratio < same_stitch && ratio > 1.0 / same_stitch;
}

/// Whether a look that was not taken for the claim's sake saw all of it.
bool saw_it_all(const Glimpse& seen, const ClaimedReading& claim) {
    const double ratio = claim.row_pitch_px > 0.0 ? seen.row_pitch_px / claim.row_pitch_px : 1.0;
    return confirms(seen, claim) && same_line(seen.row_direction_rad, claim.row_direction_rad) &&
           ratio < same_row && ratio > 1.0 / same_row;
}

SecondLook confirmed(const Glimpse& seen, const ClaimedReading& claim) {
    SecondLook look{SecondLook::Verdict::confirmed, std::nullopt, seen.row_score};
    if (claim.row_pitch_px > 0.0 && seen.row_score >= least_row_score)
        look.row_ratio = seen.row_pitch_px / claim.row_pitch_px;
    return look;
}

/// What the scout sees clearly, in a third of the time: the claimed stitches and rows. None where it does
/// not.
std::optional<SecondLook> scouted(const Recogniser& recogniser, const cv::Mat& grey, const cv::Mat& mask,
                                  const TileFrame& frame, const ClaimedReading& claim) {
    if (claim.row_pitch_px <= 0.0) return std::nullopt;
    const Glimpse seen = read_tile(recogniser, grey, mask, frame, Sight::scout).glimpse;
    if (!saw_it_all(seen, claim) || std::min(seen.score, seen.row_score) < clear_score) return std::nullopt;
    const double row_ratio = seen.row_pitch_px / claim.row_pitch_px;
    if (row_ratio > clear_row_ratio || row_ratio < 1.0 / clear_row_ratio) return std::nullopt;
    return confirmed(seen, claim);
}

}  // namespace

double ClaimedReading::pitch_px() const {
    const double row_px = row_pitch_px > 0.0 ? row_pitch_px : typical_height_over_width * stitch_pitch_px;
    return std::sqrt(stitch_pitch_px * row_px);
}

SecondLook second_look(const Recogniser& recogniser, const cv::Mat& picture, const cv::Mat& mask,
                       const ClaimedReading& claim, const std::optional<Glimpse>& before) {
    if (before && saw_it_all(*before, claim)) return confirmed(*before, claim);
    const cv::Mat grey = unit_grey(picture);
    TileFrame frame{deepest_point(mask, grey.size()), claim.row_direction_rad,
                    best_shown_pitch_px / claim.pitch_px(), side_px};
    if (const auto look = scouted(recogniser, grey, mask, frame, claim)) return *look;
    bool fabric = false;
    for (int turn = 0; turn < 2; ++turn, frame.direction_rad += std::numbers::pi) {
        const Glimpse seen = read_tile(recogniser, grey, mask, frame).glimpse;
        if (confirms(seen, claim)) return confirmed(seen, claim);
        fabric = fabric || seen.fabric >= least_fabric;
    }
    return {fabric ? SecondLook::Verdict::other_seen : SecondLook::Verdict::unseen, std::nullopt, 0.0};
}

}  // namespace ridgetally
