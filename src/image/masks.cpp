#include "image/masks.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally {

cv::Mat polygon_mask(const std::vector<std::vector<PhotoPoint>>& polygons, double scale, cv::Size size) {
    cv::Mat mask = cv::Mat::zeros(size, CV_8U);
    for (const auto& polygon : polygons) {
        if (polygon.size() < 3) continue;
        std::vector<cv::Point> corners;
        for (const auto& p : polygon) {
            corners.emplace_back(static_cast<int>(std::lround(p.x * scale)),
                                 static_cast<int>(std::lround(p.y * scale)));
        }
        cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{corners}, 255);
    }
    return mask;
}

double otsu_threshold(const cv::Mat& bytes, const cv::Mat& keep_out) {
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

cv::Mat round_element(int radius_px) {
    return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * radius_px + 1, 2 * radius_px + 1});
}

}  // namespace ridgetally
