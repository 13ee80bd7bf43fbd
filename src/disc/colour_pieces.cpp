#include "disc/colour_pieces.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "image/masks.h"

namespace ridgetally {
namespace {

/// Strands and the gaps between them become one, at 0.6 mm a pixel of a scene 300 mm wide. Not swept.
constexpr double blur_px = 2.5;
constexpr int speck_px = 4;
/// More of the frame than this is the table.
constexpr double most_frame_part = 0.9;

/// Otsu's threshold (IEEE SMC 9(1), 1979) over the places that are allowed.
double threshold_of(const cv::Mat& bytes, const cv::Mat& keep_out) {
    cv::Mat allowed;
    for (int y = 0; y < bytes.rows; ++y) {
        for (int x = 0; x < bytes.cols; ++x) {
            if (keep_out.at<uchar>(y, x) == 0) allowed.push_back(bytes.at<uchar>(y, x));
        }
    }
    if (allowed.empty()) return 0.0;
    cv::Mat unused;
    return cv::threshold(allowed, unused, 0, 255, cv::THRESH_OTSU);
}

/// Connected parts of one side of a threshold, holes filled, as regions.
void add_pieces(const cv::Mat& side, double scale, double least_frame_part,
                std::vector<FabricRegion>& regions) {
    cv::Mat whole;
    cv::morphologyEx(side, whole, cv::MORPH_CLOSE, round_element(speck_px));
    cv::morphologyEx(whole, whole, cv::MORPH_OPEN, round_element(speck_px));
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(whole, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    const auto frame = static_cast<double>(side.size().area());
    for (std::size_t i = 0; i < contours.size(); ++i) {
        const double part = cv::contourArea(contours[i]) / frame;
        if (part < least_frame_part || part > most_frame_part) continue;
        FabricRegion region;
        region.overview_from_photo = scale;
        region.mask = cv::Mat::zeros(side.size(), CV_8U);
        cv::drawContours(region.mask, contours, static_cast<int>(i), 255, cv::FILLED);
        regions.push_back(std::move(region));
    }
}

}  // namespace

std::vector<FabricRegion> colour_pieces(const Photo& photo, const FindFabricOptions& options) {
    const double scale = std::min(
        1.0, static_cast<double>(options.overview_side_px) / std::max(photo.grey.cols, photo.grey.rows));
    const cv::Size size(std::max(1, static_cast<int>(std::lround(photo.grey.cols * scale))),
                        std::max(1, static_cast<int>(std::lround(photo.grey.rows * scale))));
    cv::Mat lab;
    cv::resize(photo.colour.bgr, lab, size, 0, 0, cv::INTER_AREA);
    cv::GaussianBlur(lab, lab, {}, blur_px);
    cv::cvtColor(lab, lab, cv::COLOR_BGR2Lab);
    const cv::Mat keep_out = polygon_mask(options.keep_out_px, scale, size);
    std::vector<FabricRegion> regions;
    for (int channel = 0; channel < 3; ++channel) {
        cv::Mat bytes;
        cv::extractChannel(lab, bytes, channel);
        const cv::Mat above = bytes > threshold_of(bytes, keep_out);
        add_pieces(above & ~keep_out, scale, options.least_frame_part, regions);
        add_pieces(~above & ~keep_out, scale, options.least_frame_part, regions);
    }
    std::stable_sort(regions.begin(), regions.end(), [](const auto& a, const auto& b) {
        return cv::countNonZero(a.mask) > cv::countNonZero(b.mask);
    });
    return regions;
}

}  // namespace ridgetally
