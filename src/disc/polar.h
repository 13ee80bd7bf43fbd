#pragma once

#include <opencv2/core.hpp>

#include "core/geometry.h"

namespace ridgetally {

/// A disc unrolled: column = angle about a centre (a whole turn over all columns, clockwise from the plane's
/// x axis), row = distance from it, the outside on top. The strip keeps its hand: seen from above, clockwise
/// is to the right.
struct PolarFrame {
    ObjectPoint centre_mm;
    PhotoFromObject photo_from_plane;
    int columns = 720;
    int rows = 0;
    double outer_mm = 0.0;    ///< radius of the middle of the top row
    double mm_per_row = 0.1;  ///< towards the centre

    [[nodiscard]] double angle_rad(double column) const;
    [[nodiscard]] double radius_mm(double row) const { return outer_mm - row * mm_per_row; }
    [[nodiscard]] double row_of(double radius) const { return (outer_mm - radius) / mm_per_row; }
    [[nodiscard]] ObjectPoint plane_point(double angle_rad, double radius_mm) const;
    [[nodiscard]] PhotoPoint photo_point(double column, double row) const;
};

/// The strip of a picture whose pixels are those of the photo times `picture_from_photo` (1 for the photo
/// itself). Bilinear; what lies outside the picture is `outside`. Throws std::invalid_argument for an empty
/// picture or strip.
[[nodiscard]] cv::Mat unrolled(const cv::Mat& picture, const PolarFrame& frame,
                               double picture_from_photo = 1.0, const cv::Scalar& outside = {});

/// CV_8UC1 of the strip's size: 255 where it shows the inside of a picture of this size.
[[nodiscard]] cv::Mat in_picture(const cv::Size& photo_size, const PolarFrame& frame);

}  // namespace ridgetally
