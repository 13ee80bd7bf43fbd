#include "fabric/whole_ruler.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "fabric/colour_histogram.h"
#include "image/masks.h"

namespace ridgetally {
namespace {

/// The found half of a ruler carried the marks, so the other half is no wider, but for its bevel.
constexpr double widths_beyond = 1.2;
/// Nats: a colour at least this much more common on the ruler than elsewhere belongs to it. Not swept.
constexpr float least_evidence = 2.0F;

/// Where the rest of the ruler may lie.
cv::Mat neighbourhood(const cv::Mat& found) {
    std::vector<cv::Point> inside;
    cv::findNonZero(found, inside);
    const cv::RotatedRect box = cv::minAreaRect(inside);
    cv::Mat distance_px;
    cv::distanceTransform(~found, distance_px, cv::DIST_L2, cv::DIST_MASK_3);
    return distance_px <= widths_beyond * std::min(box.size.width, box.size.height);
}

/// `found` and every place near it with the ruler's colours.
cv::Mat alike(const cv::Mat& ycc, const cv::Mat& found, const cv::Mat& near) {
    ColourHistogram ruler;
    ColourHistogram others;
    for (int y = 0; y < ycc.rows; ++y) {
        for (int x = 0; x < ycc.cols; ++x) {
            if (found.at<uchar>(y, x) != 0) ruler.add(ycc.at<cv::Vec3b>(y, x), 1.0F);
            if (near.at<uchar>(y, x) == 0) others.add(ycc.at<cv::Vec3b>(y, x), 1.0F);
        }
    }
    ruler.finish();
    others.finish();
    cv::Mat result = found.clone();
    for (int y = 0; y < ycc.rows; ++y) {
        for (int x = 0; x < ycc.cols; ++x) {
            const auto& colour = ycc.at<cv::Vec3b>(y, x);
            if (near.at<uchar>(y, x) != 0 &&
                ruler.log_density(colour) - others.log_density(colour) > least_evidence)
                result.at<uchar>(y, x) = 255;
        }
    }
    return result;
}

/// The connected parts of `mask` that hold a pixel of `seed`, and the seed.
cv::Mat connected_to(const cv::Mat& seed, const cv::Mat& mask) {
    cv::Mat labels;
    const int count = cv::connectedComponents(mask, labels);
    std::vector<uchar> belongs(static_cast<std::size_t>(count));
    for (int y = 0; y < labels.rows; ++y) {
        for (int x = 0; x < labels.cols; ++x) {
            if (seed.at<uchar>(y, x) != 0) belongs[static_cast<std::size_t>(labels.at<int>(y, x))] = 255;
        }
    }
    belongs[0] = 0;
    cv::Mat whole = seed.clone();
    for (int y = 0; y < labels.rows; ++y) {
        for (int x = 0; x < labels.cols; ++x)
            whole.at<uchar>(y, x) |= belongs[static_cast<std::size_t>(labels.at<int>(y, x))];
    }
    return whole;
}

}  // namespace

cv::Mat whole_ruler(const cv::Mat& bgr, const cv::Mat& found) {
    if (cv::countNonZero(found) == 0) return found;
    cv::Mat ycc;
    cv::cvtColor(bgr, ycc, cv::COLOR_BGR2YCrCb);
    cv::Mat candidate = alike(ycc, found, neighbourhood(found));
    cv::morphologyEx(candidate, candidate, cv::MORPH_CLOSE, round_element(2));  // over marks and numerals
    cv::morphologyEx(candidate, candidate, cv::MORPH_OPEN,
                     round_element(3));  // cuts what hangs on by a thread
    return connected_to(found, candidate);
}

}  // namespace ridgetally
