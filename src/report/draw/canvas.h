#pragma once

#include <algorithm>
#include <opencv2/core.hpp>

#include "core/geometry.h"

namespace ridgetally {

/// A picture to draw on, with the way from photo pixels to its own.
struct Canvas {
    cv::Mat picture;
    double px_per_photo_px = 1.0;

    /// Where a point of the photo lies; both frames have their origin at the centre of the top left pixel.
    [[nodiscard]] cv::Point2d at(const PhotoPoint& p) const {
        return {(p.x + 0.5) * px_per_photo_px - 0.5, (p.y + 0.5) * px_per_photo_px - 0.5};
    }
    [[nodiscard]] double long_side_px() const { return std::max(picture.cols, picture.rows); }
    /// Widths and letters grow with the picture: 2 px lines and 26 px capitals on a long side of 1600 px.
    [[nodiscard]] double line_px() const { return long_side_px() / 800.0; }
    [[nodiscard]] double letter_px() const { return long_side_px() / 62.0; }
};

/// The photo with its long side reduced to `long_side_px` (area averaging); smaller photos keep their size.
[[nodiscard]] cv::Mat reduced_photo(const cv::Mat& photo_bgr, int long_side_px);

/// A canvas over (a reduction of) a photo that was `photo_width_px` wide. The picture is copied.
/// Throws std::invalid_argument for an empty picture, one that is not CV_8UC3, or a width that is not
/// positive.
[[nodiscard]] Canvas canvas_over(const cv::Mat& photo_bgr, int photo_width_px, int long_side_px);

}  // namespace ridgetally
