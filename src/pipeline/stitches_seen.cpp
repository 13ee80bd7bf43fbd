#include "pipeline/stitches_seen.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <string>

#include "image/resample.h"
#include "recogniser/scan.h"

namespace ridgetally {
namespace {

/// Whole swatches of 120 drawn ones filled their hulls less than that; a region that fills the frame beside
/// the ruler has a hull of nothing but the frame and the ruler's edge.
constexpr double no_edge_solidity = 0.995;
/// A tile that shows more costs more than the search did; what lies further out counts as not seen.
constexpr int most_side_px = 512;
constexpr int side_step_px = 16;  // the network's
/// Less of the region than that is not a swatch one could count on; more is all of it but a blurred rim. Not
/// swept.
constexpr double least_share = 0.1;
constexpr double most_share = 0.9;
/// Root of stitch x row pitch in the tile: what the network shows best, 20 px, costs three times as much, and
/// colour draws the outline. With 14, 11 and 10 px, the least it was trained on, it saw 0.54 of one such
/// photo each time.
constexpr double shown_pitch_px = 11.0;

/// Of the search picture's size.
struct FabricLook {
    cv::Mat probability;  ///< CV_32FC1, of fabric; 0 where it was not looked at
    cv::Mat looked_at;    ///< CV_8UC1, 255 where it was
};

cv::Mat seen_in(const FabricLook& look, const cv::Mat& mask) { return (look.probability > 0.5F) & mask; }

/// Of what was looked at within the mask.
double share_seen(const FabricLook& look, const cv::Mat& mask) {
    const int looked_at = cv::countNonZero(mask & look.looked_at);
    return static_cast<double>(cv::countNonZero(seen_in(look, mask))) / std::max(1, looked_at);
}

FabricLook look_at_fabric(const Recogniser& recogniser, const FabricPatch& patch,
                          const ClaimedReading& claim) {
    const double scale = shown_pitch_px / claim.pitch_px();
    const double whole_px = std::hypot(patch.grey.cols, patch.grey.rows) * scale;
    const int side = std::min(most_side_px, (static_cast<int>(whole_px) / side_step_px + 1) * side_step_px);
    const cv::Mat grey = unit_grey(patch.grey);
    const cv::Point2d middle(0.5 * (grey.cols - 1), 0.5 * (grey.rows - 1));
    FabricLook look{cv::Mat::zeros(grey.size(), CV_32F), cv::Mat::zeros(grey.size(), CV_8U)};
    for (const double turn : {0.0, std::numbers::pi}) {
        const TileFrame frame{middle, claim.row_direction_rad + turn, scale, side};
        const TileReading seen = read_tile(recogniser, grey, patch.mask, frame, Sight::scout);
        if (seen.fields.fabric.empty()) continue;
        const cv::Matx23d picture_from_map = frame.picture_from_fields();
        cv::Mat probability;
        cv::warpAffine(seen.weight, probability, picture_from_map, grey.size());
        look.probability = cv::max(look.probability, probability);
        cv::Mat covered;
        cv::warpAffine(cv::Mat(seen.weight.size(), CV_8U, cv::Scalar(255)), covered, picture_from_map,
                       grey.size());
        look.looked_at |= covered;
        // The other way up can only add to it.
        if (share_seen(look, patch.mask) > most_share) break;
    }
    return look;
}

}  // namespace

bool without_edges(const FabricRegion& region) {
    return region.cut_by_frame && region.solidity > no_edge_solidity;
}

std::optional<FabricRegion> stitches_seen(const FabricRegion& region, const ColourView& colours,
                                          const LatticeSearch& search, const ClaimedReading& claim,
                                          const Knowledge& knowledge, Trace& trace) {
    const Recogniser* recogniser = knowledge.recogniser.get();
    if (!recogniser) return std::nullopt;
    const FabricLook look = look_at_fabric(*recogniser, search.patch, claim);
    const cv::Mat seen = seen_in(look, search.patch.mask);
    if (trace.wants_pictures()) trace.picture("stitches-seen", seen);
    const double share = share_seen(look, search.patch.mask);
    trace.note("fabric: stitches are seen in " + std::to_string(share) + " of it");
    if (share < least_share || share > most_share) return std::nullopt;
    const auto patch_from_photo = inverse(search.patch.photo_from_rectified);
    if (!patch_from_photo) return std::nullopt;
    // Overview pixels to photo pixels: centres at integers in both.
    const double o = 1.0 / region.overview_from_photo;
    const Matrix3 photo_from_overview = {o, 0, 0.5 * o - 0.5, 0, o, 0.5 * o - 0.5, 0, 0, 1};
    const Matrix3 patch_from_overview = product(patch_from_photo->matrix, photo_from_overview);
    const auto in_overview = [&](const cv::Mat& mask) {
        return cv::Mat(resample(mask, patch_from_overview, region.mask.size()) > 127);
    };
    return redrawn(region, colours, {in_overview(seen), in_overview(look.looked_at)});
}

}  // namespace ridgetally
