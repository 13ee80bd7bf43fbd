#include "disc/polar.h"

#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally {
namespace {

/// Photo co-ordinates of every pixel of the strip.
cv::Mat photo_map(const PolarFrame& frame, double scale) {
    if (frame.columns < 1 || frame.rows < 1) throw std::invalid_argument("PolarFrame: no rows or columns");
    cv::Mat map(frame.rows, frame.columns, CV_32FC2);
    const double shift = 0.5 * scale - 0.5;  // centres of the top left pixels are at 0, 0 in both
    for (int y = 0; y < frame.rows; ++y) {
        auto* row = map.ptr<cv::Vec2f>(y);
        for (int x = 0; x < frame.columns; ++x) {
            const PhotoPoint p = frame.photo_point(x, y);
            row[x] = {static_cast<float>(p.x * scale + shift), static_cast<float>(p.y * scale + shift)};
        }
    }
    return map;
}

}  // namespace

double PolarFrame::angle_rad(double column) const { return 2.0 * std::numbers::pi * column / columns; }

ObjectPoint PolarFrame::plane_point(double angle, double radius) const {
    return {centre_mm.x + radius * std::cos(angle), centre_mm.y + radius * std::sin(angle)};
}

PhotoPoint PolarFrame::photo_point(double column, double row) const {
    return photo_from_plane(plane_point(angle_rad(column), radius_mm(row)));
}

cv::Mat unrolled(const cv::Mat& picture, const PolarFrame& frame, double picture_from_photo,
                 const cv::Scalar& outside) {
    if (picture.empty()) throw std::invalid_argument("unrolled: empty picture");
    cv::Mat strip;
    cv::remap(picture, strip, photo_map(frame, picture_from_photo), cv::noArray(), cv::INTER_LINEAR,
              cv::BORDER_CONSTANT, outside);
    return strip;
}

cv::Mat in_picture(const cv::Size& photo_size, const PolarFrame& frame) {
    const cv::Mat map = photo_map(frame, 1.0);
    cv::Mat inside(map.size(), CV_8U, cv::Scalar(0));
    for (int y = 0; y < map.rows; ++y) {
        const auto* from = map.ptr<cv::Vec2f>(y);
        auto* to = inside.ptr<uchar>(y);
        for (int x = 0; x < map.cols; ++x) {
            const bool seen = from[x][0] >= 1.0F && from[x][1] >= 1.0F &&
                              from[x][0] <= static_cast<float>(photo_size.width) - 2.0F &&
                              from[x][1] <= static_cast<float>(photo_size.height) - 2.0F;
            to[x] = seen ? 255 : 0;
        }
    }
    return inside;
}

}  // namespace ridgetally
