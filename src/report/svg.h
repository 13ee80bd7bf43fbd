#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <string_view>

/// Parts of SVG documents (W3C, Scalable Vector Graphics 2).
namespace ridgetally::svg {

/// Text as it may stand between tags and in attributes (W3C, XML 1.0, section 2.4).
[[nodiscard]] std::string escaped(std::string_view text);

/// A length or position with two decimals at most.
[[nodiscard]] std::string number(double x);

/// "#0072b2" of a colour in blue, green, red.
[[nodiscard]] std::string colour(const cv::Scalar& bgr);

/// ` name="value"`, the value escaped.
[[nodiscard]] std::string attribute(std::string_view name, std::string_view value);
[[nodiscard]] std::string attribute(std::string_view name, double value);

/// A whole document of a size in millimetres, so that it prints in that size; `content` is in millimetres
/// too.
[[nodiscard]] std::string document_mm(double width, double height, const std::string& content);

/// How text stands at its place.
enum class Anchor { start, middle, end };

/// One line of text, `size` high. Blanks are kept.
[[nodiscard]] std::string text(double x, double y, double size, std::string_view line,
                               Anchor anchor = Anchor::start, std::string_view weight = "normal");

[[nodiscard]] std::string line(double x1, double y1, double x2, double y2, std::string_view stroke,
                               double width);

}  // namespace ridgetally::svg
