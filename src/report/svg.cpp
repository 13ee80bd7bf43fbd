#include "report/svg.h"

#include <array>
#include <cmath>
#include <cstdio>

#include "report/figures.h"

namespace ridgetally::svg {

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        switch (c) {
            case '&':
                safe += "&amp;";
                break;
            case '<':
                safe += "&lt;";
                break;
            case '>':
                safe += "&gt;";
                break;
            case '"':
                safe += "&quot;";
                break;
            default:
                safe += c;
        }
    }
    return safe;
}

std::string number(double x) {
    std::string text = fixed(x, 2);
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
    return text;
}

std::string colour(const cv::Scalar& bgr) {
    std::array<char, 8> text{};
    const auto part = [&](int i) { return static_cast<unsigned>(std::lround(bgr[i])) & 0xFFU; };
    std::snprintf(text.data(), text.size(), "#%02x%02x%02x", part(2), part(1), part(0));
    return text.data();
}

std::string attribute(std::string_view name, std::string_view value) {
    return " " + std::string(name) + "=\"" + escaped(value) + "\"";
}

std::string attribute(std::string_view name, double value) { return attribute(name, number(value)); }

std::string document_mm(double width, double height, const std::string& content) {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"" +
           attribute("width", number(width) + "mm") + attribute("height", number(height) + "mm") +
           attribute("viewBox", "0 0 " + number(width) + " " + number(height)) +
           std::string(" font-family=\"sans-serif\"") + ">\n<rect" + attribute("width", width) +
           attribute("height", height) + attribute("fill", "#ffffff") + "/>\n" + content + "</svg>\n";
}

std::string text(double x, double y, double size, std::string_view line, Anchor anchor,
                 std::string_view weight) {
    static constexpr std::array<std::string_view, 3> anchors = {"start", "middle", "end"};
    return "<text" + attribute("x", x) + attribute("y", y) + attribute("font-size", size) +
           attribute("text-anchor", anchors.at(static_cast<std::size_t>(anchor))) +
           attribute("font-weight", weight) + attribute("xml:space", "preserve") + ">" + escaped(line) +
           "</text>\n";
}

std::string line(double x1, double y1, double x2, double y2, std::string_view stroke, double width) {
    return "<line" + attribute("x1", x1) + attribute("y1", y1) + attribute("x2", x2) + attribute("y2", y2) +
           attribute("stroke", stroke) + attribute("stroke-width", width) + "/>\n";
}

}  // namespace ridgetally::svg
