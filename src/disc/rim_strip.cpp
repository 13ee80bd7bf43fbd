#include "disc/rim_strip.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "disc/rim.h"
#include "disc/rim_contrast.h"

namespace ridgetally {
namespace {

/// The strip around the rim, in radii of the first guess.
constexpr double outer_reach = 1.25;
constexpr double inner_reach = 0.70;
/// Pixels a step of the path along the rim must gain: one and a half grey levels of evidence per pixel keeps
/// hairs out and follows the loops of the last round. Not swept.
constexpr double step_price = 1.5;

/// Pixels taken for the disc, and for what it lies on, around a rim known to `margin` rows.
struct Samples {
    cv::Mat inside;
    cv::Mat outside;
};

/// Rows left out to either side of the rim.
struct Margin {
    int inwards = 0;
    int outwards = 0;
};

Samples samples_about(const cv::Mat& mask, const cv::Mat& usable, const Margin& margin) {
    const auto element = [](int rows) {
        return cv::getStructuringElement(cv::MORPH_RECT, {1, 2 * rows + 1});
    };
    Samples samples;
    cv::erode(mask, samples.inside, element(margin.inwards));
    cv::dilate(mask, samples.outside, element(margin.outwards));
    samples.outside = ~samples.outside & usable;
    samples.inside &= usable;
    return samples;
}

/// The mask with what it surrounds: whatever hangs together with the strip's outer border lies outside.
cv::Mat without_holes(const cv::Mat& mask) {
    cv::Mat labels;
    cv::connectedComponents(mask == 0, labels);
    cv::Mat filled = cv::Mat::ones(mask.size(), CV_8U) * 255;
    std::vector<int> open;
    for (int x = 0; x < mask.cols; ++x) {
        const int label = labels.at<int>(0, x);
        if (label != 0 && (open.empty() || open.back() != label)) open.push_back(label);
    }
    std::sort(open.begin(), open.end());
    open.erase(std::unique(open.begin(), open.end()), open.end());
    for (const int label : open) filled.setTo(0, labels == label);
    return filled;
}

cv::Mat below(const std::vector<int>& rim, const cv::Size& size) {
    cv::Mat mask = cv::Mat::zeros(size, CV_8U);
    for (int x = 0; x < size.width; ++x) {
        const int from = std::clamp(rim[static_cast<std::size_t>(x)], 0, size.height);
        mask(cv::Rect(x, from, 1, size.height - from)).setTo(255);
    }
    return mask;
}

/// Speaks against the disc down to the bottom of every long gap through which the table is seen: a tail that
/// lies beside the edge is no part of it. A gap is longer than 25 degrees, which no stitch of a round of
/// fifteen is; nothing where gaps go half round, that is an edge of chains. False where nothing was cut off.
bool cut_off_tails(const cv::Mat& table, const std::vector<int>& rim, cv::Mat& evidence) {
    const int columns = table.cols;
    cv::Mat gaps = table & below(rim, table.size());
    cv::morphologyEx(gaps, gaps, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_RECT, {3, 3}));
    cv::Mat twice;
    cv::hconcat(gaps, gaps, twice);  // gaps go on over the seam
    cv::Mat labels;
    cv::Mat stats;
    cv::Mat middles;
    const int count = cv::connectedComponentsWithStats(twice, labels, stats, middles);
    std::vector<int> bottom(static_cast<std::size_t>(columns), -1);
    for (int label = 1; label < count; ++label) {
        const int first = stats.at<int>(label, cv::CC_STAT_LEFT);
        const int width = stats.at<int>(label, cv::CC_STAT_WIDTH);
        if (width < columns * 25 / 360 || width >= columns) continue;
        for (int x = first; x < first + width; ++x) {
            auto& low = bottom[static_cast<std::size_t>(x % columns)];
            for (int y = table.rows - 1; y > low; --y) {
                if (labels.at<int>(y, x) == label) low = y;
            }
        }
    }
    const auto whole = std::count(bottom.begin(), bottom.end(), -1);
    if (whole == columns || 2 * whole < columns) return false;
    for (int x = 0; x < columns; ++x) {
        const int low = bottom[static_cast<std::size_t>(x)];
        if (low >= 0) evidence(cv::Rect(x, 0, 1, low + 1)).setTo(-most_evidence);
    }
    return true;
}

/// How far the rim lies off an oval, root of the mean square, mm.
double off_oval_mm(const RimStrip& strip, const std::vector<int>& rim) {
    std::vector<ObjectPoint> points;
    for (std::size_t x = 0; x < rim.size(); ++x) {
        const int row = rim[x];
        if (row < 0 || row >= strip.usable.rows || strip.usable.at<uchar>(row, static_cast<int>(x)) == 0)
            continue;
        const auto column = static_cast<double>(x);
        points.push_back(strip.frame.plane_point(strip.frame.angle_rad(column), strip.frame.radius_mm(row)));
    }
    constexpr std::size_t least_points = 8;
    if (points.size() < least_points) return 0.0;
    const RoundCurve oval = fit_round_curve(points, CurveShape::oval);
    double sum = 0.0;
    for (const auto& p : points) {
        const double dx = p.x - oval.centre_mm.x;
        const double dy = p.y - oval.centre_mm.y;
        const double off = std::hypot(dx, dy) - oval.radius_at(std::atan2(dy, dx));
        sum += off * off;
    }
    return std::sqrt(sum / static_cast<double>(points.size()));
}

}  // namespace

RimStrip rim_strip(const Photo& photo, const FabricRegion& region, const cv::Mat& keep_out,
                   const RoundCurve& curve, const PhotoFromObject& photo_from_plane, int angles) {
    RimStrip strip;
    PolarFrame& frame = strip.frame;
    frame.centre_mm = curve.centre_mm;
    frame.photo_from_plane = photo_from_plane;
    frame.columns = angles;
    frame.outer_mm = outer_reach * curve.radius_mm;
    const double px_per_mm = px_per_mm_along(photo_from_plane, curve.centre_mm, 1, 0);
    // One row a photo pixel, at most 600 rows: finer than 0.1 % of the radius buys nothing.
    const double band_mm = (outer_reach - inner_reach) * curve.radius_mm;
    frame.rows = std::clamp(static_cast<int>(band_mm * px_per_mm), 32, 600);
    frame.mm_per_row = band_mm / frame.rows;
    cv::cvtColor(unrolled(photo.colour.bgr, frame, 1.0 / photo.colour.reduction), strip.ycc,
                 cv::COLOR_BGR2YCrCb);
    strip.mask = unrolled(region.mask, frame, region.overview_from_photo) > 127;
    const cv::Mat covered = unrolled(keep_out, frame, region.overview_from_photo) > 127;
    strip.usable = in_picture(photo.grey.size(), frame) & ~covered;
    return strip;
}

std::vector<int> find_rim(const RimStrip& strip) {
    const auto rows_of = [&](double radii) {
        const double radius_mm = strip.frame.outer_mm / outer_reach;
        return std::max(2, static_cast<int>(radii * radius_mm / strip.frame.mm_per_row));
    };
    // What a rim that was drawn too far out takes for the disc is no sample of it: less than the last of a
    // dozen rounds. Outwards the first mask is good to a fortieth of the radius. Not swept.
    const Margin margins[] = {{rows_of(0.06), rows_of(0.025)}, {rows_of(0.05), rows_of(0.015)}};
    std::vector<int> rim;
    cv::Mat inside = without_holes(strip.mask);
    cv::Mat evidence;
    RimContrast seen;
    for (const Margin& margin : margins) {
        const Samples samples = samples_about(inside, strip.usable, margin);
        seen = rim_contrast(strip.ycc, samples.inside, samples.outside);
        evidence = seen.evidence;
        evidence.setTo(0.0F, ~strip.usable);
        rim = closed_rim(evidence, step_price);
        inside = below(rim, strip.ycc.size());
    }
    if (!cut_off_tails(seen.table & strip.usable, rim, evidence)) return rim;
    // Without its tail a crown is rounder; what makes it less so was a round of open stitches.
    constexpr double rounder = 0.75;
    auto without = closed_rim(evidence, step_price);
    return off_oval_mm(strip, without) < rounder * off_oval_mm(strip, rim) ? without : rim;
}

}  // namespace ridgetally
