#include "image/colour_overview.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace ridgetally {
namespace {

cv::Size overview_size(const cv::Size& photo_px, int reduction) {
    return {std::max(1, photo_px.width / reduction), std::max(1, photo_px.height / reduction)};
}

/// The part of a plane that whole overview pixels cover, brought to the overview's size. `photo_px` is what
/// the whole plane shows.
cv::Mat brought_to(const cv::Mat& plane, const cv::Size& photo_px, int reduction) {
    const cv::Size size = overview_size(photo_px, reduction);
    const auto covered = [reduction](int overview, int photo, int of_plane) {
        const double part = std::min(1.0, static_cast<double>(overview) * reduction / photo);
        return std::clamp(cvRound(part * of_plane), 1, of_plane);
    };
    cv::Mat part = plane(cv::Rect(0, 0, covered(size.width, photo_px.width, plane.cols),
                                  covered(size.height, photo_px.height, plane.rows)));
    if (part.size() == size) return part;
    cv::Mat reduced;
    const bool grows = part.cols < size.width || part.rows < size.height;
    cv::resize(part, reduced, size, 0.0, 0.0, grows ? cv::INTER_LINEAR : cv::INTER_AREA);
    return reduced;
}

}  // namespace

int overview_reduction(const cv::Size& photo_px) {
    return std::max(1, std::max(photo_px.width, photo_px.height) / least_overview_side_px);
}

ColourOverview colour_overview(const cv::Mat& bgr) {
    const int reduction = overview_reduction(bgr.size());
    return {brought_to(bgr, bgr.size(), reduction), reduction};
}

ColourOverview colour_overview(const cv::Mat& luma, const cv::Mat& blue_difference,
                               const cv::Mat& red_difference) {
    const int reduction = overview_reduction(luma.size());
    // OpenCV's order of the three: red before blue.
    const std::vector<cv::Mat> planes = {brought_to(luma, luma.size(), reduction),
                                         brought_to(red_difference, luma.size(), reduction),
                                         brought_to(blue_difference, luma.size(), reduction)};
    ColourOverview overview{{}, reduction};
    cv::merge(planes, overview.bgr);
    cv::cvtColor(overview.bgr, overview.bgr, cv::COLOR_YCrCb2BGR);
    return overview;
}

}  // namespace ridgetally
