#pragma once

#include <opencv2/core.hpp>

namespace ridgetally {

/// EXIF Orientation (CIPA DC-008, tag 274): where the stored first row and first column lie for the viewer.
enum class Orientation {
    top_left = 1,      ///< upright as stored
    top_right = 2,     ///< mirrored left to right
    bottom_right = 3,  ///< turned by 180 degrees
    bottom_left = 4,   ///< mirrored top to bottom
    left_top = 5,      ///< transposed
    right_top = 6,     ///< to be turned clockwise by 90 degrees
    right_bottom = 7,  ///< transposed about the other diagonal
    left_bottom = 8    ///< to be turned anticlockwise by 90 degrees
};

/// Size of the upright picture of a stored one.
[[nodiscard]] cv::Size upright_size(const cv::Size& stored, Orientation orientation);

/// Copies stored rows first_row, first_row + 1, ... (`strip`, full width) to where they lie in `upright`,
/// which has the size upright_size and the type of the strip. Lets a decoder turn the picture without a
/// second copy.
void place_rows(const cv::Mat& strip, int first_row, Orientation orientation, cv::Mat& upright);

/// The whole picture upright. Mirrors and half turns are made in place.
[[nodiscard]] cv::Mat turned_upright(cv::Mat stored, Orientation orientation);

}  // namespace ridgetally
