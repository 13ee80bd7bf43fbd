#include "disc/colour_pieces.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "image/masks.h"

namespace ridgetally {
namespace {

/// Strands and the gaps between them become one, at 0.6 mm a pixel of a scene 300 mm wide. Not swept.
constexpr double blur_px = 2.5;
constexpr int speck_px = 4;
/// More of the frame than this is the table.
constexpr double most_frame_part = 0.9;

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
    const auto [bgr, scale] = colour_view(photo, options);
    cv::Mat lab;
    cv::GaussianBlur(bgr, lab, {}, blur_px);
    cv::cvtColor(lab, lab, cv::COLOR_BGR2Lab);
    const cv::Mat keep_out = polygon_mask(options.keep_out_px, scale, bgr.size());
    std::vector<FabricRegion> regions;
    for (int channel = 0; channel < 3; ++channel) {
        cv::Mat bytes;
        cv::extractChannel(lab, bytes, channel);
        const cv::Mat above = bytes > otsu_threshold(bytes, keep_out);
        add_pieces(above & ~keep_out, scale, options.least_frame_part, regions);
        add_pieces(~above & ~keep_out, scale, options.least_frame_part, regions);
    }
    std::stable_sort(regions.begin(), regions.end(), [](const auto& a, const auto& b) {
        return cv::countNonZero(a.mask) > cv::countNonZero(b.mask);
    });
    return regions;
}

}  // namespace ridgetally
