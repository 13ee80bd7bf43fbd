#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// A square cut out of a picture, turned and scaled.
struct TileFrame {
    cv::Point2d centre_px;           ///< its middle, in the picture
    double direction_rad = 0.0;      ///< of the tile's x axis in the picture, clockwise (y runs down)
    double tile_from_picture = 1.0;  ///< tile px per picture px
    int side_px = 192;

    /// Takes tile pixels to picture pixels.
    [[nodiscard]] cv::Matx23d picture_from_tile() const;
    /// Takes pixels of what the network says of the tile, at half its side, to picture pixels.
    [[nodiscard]] cv::Matx23d picture_from_fields() const;
};

struct Tile {
    cv::Mat picture;  ///< CV_32FC1, locally normalised
    cv::Mat seen;     ///< CV_32FC1 at half the side: 1 where the picture (and its mask) reaches, else 0
};

/// Grey picture as the recogniser takes it: CV_32FC1 with 0 black and 1 white, from CV_8UC1, CV_8UC3 (BGR) or
/// CV_32FC1 from 0 to 255. Throws std::invalid_argument for other types.
[[nodiscard]] cv::Mat unit_grey(const cv::Mat& grey_or_bgr);

/// Cuts a tile. `mask` (CV_8UC1, the picture's size, or empty) bounds what counts as seen.
[[nodiscard]] Tile cut_tile(const cv::Mat& unit_grey, const cv::Mat& mask, const TileFrame& frame);

/// The point deepest inside the mask (or of the whole picture, where that is empty): the middle of what can
/// be read.
[[nodiscard]] cv::Point2d deepest_point(const cv::Mat& mask, const cv::Size& size);

/// Takes out local mean and contrast over `window` pixels: (x - mean) / sqrt(variance + floor^2), within +-3.
/// The network was trained on pictures treated in exactly this way.
[[nodiscard]] cv::Mat normalise_locally(const cv::Mat& unit_grey);

}  // namespace ridgetally
