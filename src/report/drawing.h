#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <variant>
#include <vector>

#include "report/svg.h"

/// A drawing of a few lines, marks and words that can be had as SVG and as pixels. Millimetres from the top
/// left; colours in blue, green, red.
namespace ridgetally {

/// Of letters and of lines that carry a value.
inline const cv::Scalar drawing_ink{0x22, 0x22, 0x22};

struct DrawnLine {
    double x1 = 0.0;
    double y1 = 0.0;
    double x2 = 0.0;
    double y2 = 0.0;
    cv::Scalar colour;
    double width = 0.3;
};

struct DrawnText {
    double x = 0.0;  ///< of the anchor, on the baseline
    double y = 0.0;
    double size = 3.6;  ///< of the font: capitals are about 0.7 of it
    std::string text;
    svg::Anchor anchor = svg::Anchor::start;
    std::string weight = "normal";
};

/// Marks differ in form, so that they can be told apart without colour.
enum class MarkForm { ring, square };
struct DrawnMark {
    double x = 0.0;
    double y = 0.0;
    MarkForm form = MarkForm::ring;
    std::string title;  ///< shown by programs that show SVG, at the mark
};

struct Drawing {
    double width_mm = 0.0;
    double height_mm = 0.0;
    std::vector<std::variant<DrawnLine, DrawnText, DrawnMark>> parts;  ///< later ones over earlier ones
};

[[nodiscard]] std::string svg_of(const Drawing& drawing);

/// CV_8UC3 on white. Letters are those of draw_text: signs it does not have come out as "?".
[[nodiscard]] cv::Mat picture_of(const Drawing& drawing, double px_per_mm);

}  // namespace ridgetally
