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

cv::Mat round_element(int radius_px) {
    return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * radius_px + 1, 2 * radius_px + 1});
}

}  // namespace ridgetally
