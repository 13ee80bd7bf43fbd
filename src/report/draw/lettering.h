#pragma once

#include <opencv2/core.hpp>
#include <string_view>

namespace ridgetally {

/// Stroke lettering for pictures (the Hershey simplex alphabet, with the signs of plus-or-minus, times and
/// degree added). Text is ASCII and those three signs; anything else is drawn as "?".
struct LetterStyle {
    double cap_height_px = 20.0;
    cv::Scalar colour;
    cv::Scalar halo;
    double halo_px = 0.0;  ///< edge around the strokes; 0 for none
    double boldness =
        0.13;  ///< stroke width over cap height; a choice of ours, looked at on a phone-sized picture
};

/// Advance width of a line of text.
[[nodiscard]] double text_width_px(std::string_view utf8, double cap_height_px);

/// Draws one line; `origin` is the left end of the baseline. Parts outside the picture are left out.
void draw_text(cv::Mat& picture, std::string_view utf8, const cv::Point2d& origin, const LetterStyle& style);

}  // namespace ridgetally
