#include "fabric/fabric_region.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "fabric/mask_shape.h"
#include "fabric/ruler_sides.h"
#include "fabric/segment.h"
#include "fabric/texture_energy.h"
#include "fabric/whole_ruler.h"
#include "image/masks.h"

namespace ridgetally {
namespace {

/// Swatches of 120 of our own renders filled 0.92 of their hulls and more, seeds of rims only 0.3. Not swept.
constexpr double least_seed_solidity = 0.8;

/// Of what is known to be table, the part that colour may take for fabric and still be trusted where nothing
/// is known. Not swept: colours that differ take hardly any, the same colours all of it.
constexpr double most_table_taken = 0.2;

Refusal no_fabric() {
    return {"fabric", "no-fabric", "no crocheted or knitted fabric found in the photo",
            "lay the swatch flat on a plain table so that it fills a good part of the frame, or give --area"};
}

double overview_scale(const Photo& photo, int side_px) {
    return std::min(1.0, static_cast<double>(side_px) / std::max(photo.grey.cols, photo.grey.rows));
}

cv::Size scaled_size(const Photo& photo, double scale) {
    return {std::max(1, static_cast<int>(std::lround(photo.grey.cols * scale))),
            std::max(1, static_cast<int>(std::lround(photo.grey.rows * scale)))};
}

/// Threshold between table and fabric: Otsu's on the logarithm, since the two differ by a factor, not by a
/// sum.
cv::Mat busy_part(const cv::Mat& energy, const cv::Mat& keep_out) {
    // Of 40 renders, tables had 0.1 to 0.45 and fabric 0.5 or more. Burnt-out parts have no noise at all; on
    // a logarithm they would be the one class and everything else the other.
    constexpr double least_told_apart = 0.2;
    cv::Mat log_energy;
    cv::log(cv::max(energy, least_told_apart), log_energy);
    double low = 0.0;
    double high = 0.0;
    cv::minMaxLoc(log_energy, &low, &high, nullptr, nullptr, ~keep_out);
    if (high <= low) return cv::Mat::zeros(energy.size(), CV_8U);
    cv::Mat bytes;
    log_energy.convertTo(bytes, CV_8U, 255.0 / (high - low), -low * 255.0 / (high - low));
    cv::Mat busy = bytes > otsu_threshold(bytes, keep_out);
    busy.setTo(0, keep_out);
    return busy;
}

/// The largest piece that looks like fabric by its texture.
struct Seed {
    cv::Mat filled;  ///< CV_8UC1, without holes
    cv::Mat calm;    ///< CV_8UC1, parts of it without texture: table in a loop of the tail, or smooth fabric
};

/// Less than two pixels across is noise of the threshold, which every seed has along its rim.
cv::Mat calm_inside(const cv::Mat& seed, const cv::Mat& textured) {
    cv::Mat calm;
    cv::morphologyEx(seed & ~textured, calm, cv::MORPH_OPEN, round_element(2));
    return calm;
}

/// `part` and what lies within `margin` of it taken out of `mask`.
void take_out(cv::Mat& mask, const cv::Mat& part, int margin) {
    cv::Mat wide;
    cv::dilate(part, wide, round_element(margin));
    mask.setTo(0, wide);
}

/// What is known of the border from where the picture is busy.
SegmentTask task_from(const cv::Mat& bgr, const Seed& from, const cv::Mat& keep_out, int margin) {
    SegmentTask task;
    task.bgr = bgr;
    task.keep_out = keep_out;
    const cv::Mat& seed = from.filled;
    const cv::Mat hull = convex_hull_of(seed);
    if (solidity_of(seed, hull, keep_out) < least_seed_solidity) {
        // On a busy table only the fabric's rim stands out: its colours are those inside the rim, and where
        // it ends they must tell alone.
        cv::erode(hull, task.likely, round_element(2 * margin));
        cv::dilate(hull, task.table, round_element(2 * margin));
        task.table = ~task.table;
        task.sure = cv::Mat::zeros(seed.size(), CV_8U);
        task.possible = ~task.sure;
        return task;
    }
    // The energy was smoothed, so its threshold lies outside the fabric by about the margin: colour must not
    // learn that rim as fabric.
    cv::erode(seed, task.likely, round_element(margin));
    cv::erode(seed, task.sure, round_element(2 * margin));
    cv::dilate(seed, task.possible, round_element(margin));
    task.table = ~task.possible;
    // The rim of a calm part is as blurred as the outer one. Where it is fabric its colours say so.
    take_out(task.likely, from.calm, margin);
    take_out(task.sure, from.calm, 2 * margin);
    return task;
}

/// What is known of the border from where stitches are seen. Their rim is half a stitch wide or so, and a
/// border between cloth and fabric may lie in it.
SegmentTask task_from(const cv::Mat& bgr, const FabricRegion& region, const SeenFabric& seen, int margin) {
    SegmentTask task;
    task.bgr = bgr;
    task.keep_out = ~region.mask;
    task.possible = region.mask;
    const cv::Mat fabric = seen.fabric & region.mask;
    cv::erode(fabric, task.likely, round_element(margin));
    cv::erode(fabric, task.sure, round_element(2 * margin));
    cv::dilate(fabric, task.table, round_element(margin));
    task.table = seen.looked_at & region.mask & ~task.table;
    return task;
}

/// What has the colours of fabric; none where table and fabric have the same.
std::optional<cv::Mat> coloured_as_seen(const SegmentTask& task) {
    const int table = cv::countNonZero(task.table);
    if (table == 0 || cv::countNonZero(task.likely) == 0) return std::nullopt;
    const cv::Mat fabric = segment_fabric(task);
    if (cv::countNonZero(fabric & task.table) > most_table_taken * table) return std::nullopt;
    return fabric;
}

/// Lets colour draw the border that texture left blurred.
cv::Mat refined(const cv::Mat& bgr, const Seed& seed, const cv::Mat& keep_out, int margin) {
    const SegmentTask task = task_from(bgr, seed, keep_out, margin);
    if (cv::countNonZero(task.likely) == 0 || cv::countNonZero(task.table) == 0) return seed.filled;
    cv::Mat result = segment_fabric(task);
    cv::morphologyEx(result, result, cv::MORPH_CLOSE, round_element(margin / 2));
    return without_tails(result, margin);
}

/// The fabric as it would lie there without the ruler, where that cuts it.
cv::Mat whole_under(const cv::Mat& all_sides, const cv::Mat& one_side, const cv::Mat& ruler) {
    if (cv::countNonZero(all_sides) == cv::countNonZero(one_side)) return all_sides;
    return all_sides | (convex_hull_of(all_sides) & ruler);
}

FabricRegion region_of(const cv::Mat& mask, double scale) {
    FabricRegion region;
    region.mask = mask;
    region.overview_from_photo = scale;
    region.outline_px = outline_of(mask, scale);
    region.edge_direction_deg = edge_direction(mask);
    region.cut_by_frame = touches_frame(mask);
    return region;
}

}  // namespace

ColourView colour_view(const Photo& photo, const FindFabricOptions& options) {
    ColourView view{{}, overview_scale(photo, options.overview_side_px)};
    cv::resize(photo.colour.bgr, view.bgr, scaled_size(photo, view.overview_from_photo), 0, 0,
               cv::INTER_AREA);
    return view;
}

FabricOverview fabric_overview(const Photo& photo, const FindFabricOptions& options) {
    const ColourView colours = colour_view(photo, options);
    return {colours, texture_energy(photo.pyramid, colours.bgr.size())};
}

Outcome<FabricRegion> find_fabric(const Photo& photo, const FindFabricOptions& options) {
    return find_fabric(fabric_overview(photo, options), options);
}

Outcome<FabricRegion> find_fabric(const FabricOverview& overview, const FindFabricOptions& options) {
    const double scale = overview.colours.overview_from_photo;
    const cv::Mat& small = overview.colours.bgr;
    const cv::Size size = small.size();
    const int margin = std::max(3, options.overview_side_px / 60);
    cv::Mat keep_out = whole_ruler(small, polygon_mask(options.keep_out_px, scale, size));
    cv::dilate(keep_out, keep_out, round_element(margin / 2));

    const cv::Mat textured = busy_part(overview.texture_energy, keep_out);
    cv::Mat busy;
    cv::morphologyEx(textured, busy, cv::MORPH_CLOSE, round_element(margin));
    cv::morphologyEx(busy, busy, cv::MORPH_OPEN, round_element(margin));
    const auto seeds = pieces_of(busy, options.least_frame_part * static_cast<double>(size.area()));
    if (seeds.empty()) return no_fabric();

    const Sides busy_sides = sides_of(small, seeds, keep_out);
    const Seed seed{busy_sides.all, calm_inside(busy_sides.all, textured)};
    const cv::Mat mask = refined(small, seed, keep_out, margin);
    auto pieces = pieces_of(mask, options.least_frame_part * static_cast<double>(size.area()));
    if (pieces.empty()) return no_fabric();
    const cv::Mat sides = sides_of(small, pieces, keep_out).all;
    FabricRegion region = region_of(whole_under(sides, pieces.front(), keep_out), scale);
    region.mask = sides;
    bool across = busy_sides.others.size() + 1 < seeds.size();
    for (const cv::Mat& other : busy_sides.others) {
        if (one_fabric(small, pieces.front(), other, keep_out))
            across = true;
        else
            region.others.push_back(other);
    }
    region.ruler_contact = across ? RulerContact::across : ruler_contact(pieces.front(), keep_out);
    region.solidity = solidity_of(region.mask, convex_hull_of(region.mask), keep_out);
    return region;
}

std::optional<FabricRegion> redrawn(const FabricRegion& region, const ColourView& colours,
                                    const SeenFabric& seen) {
    const FindFabricOptions usual;
    const int margin = std::max(3, usual.overview_side_px / 60);
    const SegmentTask task = task_from(colours.bgr, region, seen, margin);
    cv::Mat mask = coloured_as_seen(task).value_or(region.mask & seen.fabric);
    cv::morphologyEx(mask, mask, cv::MORPH_CLOSE, round_element(margin / 2));
    mask = without_tails(mask, margin);
    const auto pieces = pieces_of(mask, usual.least_frame_part * static_cast<double>(mask.size().area()));
    if (pieces.empty()) return std::nullopt;
    FabricRegion result = region_of(pieces.front(), region.overview_from_photo);
    result.others = region.others;
    // What was seen can end a little before the frame that cuts it.
    cv::Mat wide;
    cv::dilate(result.mask, wide, round_element(margin));
    result.cut_by_frame = region.cut_by_frame && touches_frame(wide);
    // The ruler lay along the old region's rim, so only what reaches that rim can touch it.
    if (region.ruler_contact != RulerContact::apart)
        result.ruler_contact = ruler_contact(result.mask, ~region.mask);
    result.solidity =
        solidity_of(result.mask, convex_hull_of(result.mask), cv::Mat::zeros(mask.size(), CV_8U));
    return result;
}

Outcome<FabricRegion> fabric_inside(const Photo& photo, const std::vector<PhotoPoint>& area_px) {
    // The overview of a polygon given by hand is finer, so that its corners stay where they were put.
    const double scale = overview_scale(photo, 1200);
    const cv::Mat mask = polygon_mask({area_px}, scale, scaled_size(photo, scale));
    if (cv::countNonZero(mask) < 64) {
        return Refusal{"fabric", "area-outside", "the area given by hand has no part of the photo in it",
                       "give --area as X,Y,X,Y,... with three or more corners inside the photo"};
    }
    FabricRegion region = region_of(mask, scale);
    region.outline_px = area_px;
    region.edge_direction_deg.reset();
    region.cut_by_frame = true;
    return region;
}

}  // namespace ridgetally
