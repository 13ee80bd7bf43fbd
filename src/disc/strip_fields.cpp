#include "disc/strip_fields.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "recogniser/tile.h"

namespace ridgetally {
namespace {

/// Squares of 192 px, as in training (eight to ten stitches of 20 px); a margin of 24 px on each side sees
/// nothing of what lies beyond and is left to the neighbour.
constexpr int side_px = 192;
constexpr int margin_px = 24;
constexpr int step_px = side_px - 2 * margin_px;

void keep_middle(const cv::Mat& from, int x0, int y0, cv::Mat& to) {
    const int margin = margin_px / 2;
    for (int y = 0; y < from.rows; ++y) {
        const int row = y0 / 2 + y;
        const bool at_top = y0 == 0;
        if (row < 0 || row >= to.rows || (y < margin && !at_top)) continue;
        for (int x = margin; x < from.cols - margin; ++x) {
            const int column = ((x0 / 2 + x) % to.cols + to.cols) % to.cols;
            if (to.type() == CV_32FC2) {
                to.at<cv::Vec2f>(row, column) = from.at<cv::Vec2f>(y, x);
            } else {
                to.at<float>(row, column) = from.at<float>(y, x);
            }
        }
    }
}

double mean_length(const cv::Mat& field, int from_row) {
    double sum = 0.0;
    int count = 0;
    for (int y = std::max(0, from_row); y < field.rows; ++y) {
        for (int x = 0; x < field.cols; ++x) {
            const auto v = field.at<cv::Vec2f>(y, x);
            sum += std::hypot(v[0], v[1]);
            ++count;
        }
    }
    return count > 0 ? sum / count : 0.0;
}

}  // namespace

StripFields read_strip(const Recogniser& recogniser, const RoundStrip& strip) {
    const cv::Mat unit = unit_grey(strip.grey);
    cv::Mat wide;
    const int wrap = side_px;
    cv::copyMakeBorder(unit, wide, 0, std::max(0, side_px - unit.rows), wrap, wrap, cv::BORDER_REFLECT_101);
    for (int i = 0; i < wrap; ++i) {  // the strip is closed: its ends are its own neighbours
        unit.col((unit.cols - 1 - i % unit.cols + unit.cols) % unit.cols)
            .copyTo(wide(cv::Rect(wrap - 1 - i, 0, 1, unit.rows)));
        unit.col(i % unit.cols).copyTo(wide(cv::Rect(wrap + unit.cols + i, 0, 1, unit.rows)));
    }
    const cv::Mat normal = normalise_locally(wide);
    StripFields fields;
    const cv::Size half((unit.cols + 1) / 2, (unit.rows + 1) / 2);
    fields.stitch = cv::Mat::zeros(half, CV_32FC2);
    fields.row = cv::Mat::zeros(half, CV_32FC2);
    fields.fabric = cv::Mat::zeros(half, CV_32F);
    for (int y = 0; y < std::max(1, unit.rows - 2 * margin_px); y += step_px) {
        const int top = std::min(y, normal.rows - side_px) / 2 * 2;
        for (int x = 0; x < unit.cols; x += step_px) {
            const int left = wrap - margin_px + x;
            if (left + side_px > normal.cols) break;
            const PhaseFields seen = recogniser.run(normal(cv::Rect(left, top, side_px, side_px)).clone());
            keep_middle(seen.stitch, left - wrap, top, fields.stitch);
            keep_middle(seen.row, left - wrap, top, fields.row);
            keep_middle(seen.fabric, left - wrap, top, fields.fabric);
        }
    }
    const int first = static_cast<int>(strip.rim_row / 2.0);
    fields.stitch_length = mean_length(fields.stitch, first);
    fields.row_length = mean_length(fields.row, first);
    return fields;
}

}  // namespace ridgetally
