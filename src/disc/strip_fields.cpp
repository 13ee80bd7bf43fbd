#include "disc/strip_fields.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "recogniser/tile.h"

namespace ridgetally {
namespace {

/// Pieces of 14 stitches of 22 px; what lies within 24 px of an end sees nothing beyond it and is left to the
/// neighbour.
constexpr int piece_px = 320;
constexpr int margin_px = 24;

int up_to_16(int px) { return (px + 15) / 16 * 16; }

/// The strip with `wrap` columns of its other end before and after it, as the recogniser takes it.
cv::Mat prepared(const RoundStrip& strip, int wrap) {
    const cv::Mat unit = unit_grey(strip.grey);
    const int lower = up_to_16(unit.rows) - unit.rows;
    cv::Mat padded;
    cv::copyMakeBorder(unit, padded, 0, lower, 0, 0, cv::BORDER_REFLECT_101);
    cv::Mat wide(padded.rows, unit.cols + 2 * wrap, CV_32F);
    for (int x = 0; x < wide.cols; ++x) {
        const int from = ((x - wrap) % unit.cols + unit.cols) % unit.cols;
        padded.col(from).copyTo(wide.col(x));
    }
    return normalise_locally(wide);
}

/// Copies the columns of a piece's map from `margin` on to their place in the whole.
void place(const cv::Mat& from, int first, int margin, cv::Mat& to) {
    const int rows = std::min(from.rows, to.rows);
    for (int x = margin; x < from.cols - margin; ++x) {
        const int column = ((first + x) % to.cols + to.cols) % to.cols;
        from(cv::Rect(x, 0, 1, rows)).copyTo(to(cv::Rect(column, 0, 1, rows)));
    }
}

}  // namespace

double StripFields::sureness(double depth) const {
    const int from = std::max(0, static_cast<int>(rim_row));
    const int to = std::min(stitch.rows, static_cast<int>(rim_row + depth));
    double stitches = 0.0;
    double rows = 0.0;
    int count = 0;
    for (int y = from; y < to; ++y) {
        for (int x = 0; x < stitch.cols; ++x) {
            const auto s = stitch.at<cv::Vec2f>(y, x);
            const auto r = row.at<cv::Vec2f>(y, x);
            stitches += std::hypot(s[0], s[1]);
            rows += std::hypot(r[0], r[1]);
            ++count;
        }
    }
    return count > 0 ? std::sqrt(stitches * rows) / count : 0.0;
}

StripFields read_strip(const Recogniser& recogniser, const RoundStrip& strip) {
    const cv::Mat wide = prepared(strip, margin_px + piece_px);
    StripFields fields;
    const cv::Size half(strip.grey.cols / 2, (strip.grey.rows + 1) / 2);
    fields.stitch = cv::Mat::zeros(half, CV_32FC2);
    fields.row = cv::Mat::zeros(half, CV_32FC2);
    fields.fabric = cv::Mat::zeros(half, CV_32F);
    fields.rim_row = 0.5 * strip.rim_row - 0.25;
    constexpr int step_px = piece_px - 2 * margin_px;
    const int pieces = (strip.grey.cols + step_px - 1) / step_px;
    for (int x = 0; x < strip.grey.cols; x += step_px) {
        const int left = x + piece_px;  // of the piece in the wide strip, its margin included
        const PhaseFields seen = recogniser.run(wide(cv::Rect(left, 0, piece_px, wide.rows)).clone());
        const int first = (x - margin_px) / 2;
        place(seen.stitch, first, margin_px / 2, fields.stitch);
        place(seen.row, first, margin_px / 2, fields.row);
        place(seen.fabric, first, margin_px / 2, fields.fabric);
        const auto family = kinds_of(seen.kinds, seen.fabric).family;
        for (std::size_t k = 0; k < family.size(); ++k) fields.family[k] += family[k] / pieces;
    }
    return fields;
}

StripFields read_strip_piece(const Recogniser& recogniser, const RoundStrip& strip, int first, int columns) {
    const cv::Mat wide = prepared(strip, columns);
    const int left = columns + ((first % strip.grey.cols) + strip.grey.cols) % strip.grey.cols;
    const PhaseFields seen = recogniser.run(wide(cv::Rect(left, 0, columns, wide.rows)).clone());
    const cv::Rect kept(0, 0, columns / 2, (strip.grey.rows + 1) / 2);
    return {seen.stitch(kept), seen.row(kept), seen.fabric(kept), 0.5 * strip.rim_row - 0.25, {}};
}

}  // namespace ridgetally
