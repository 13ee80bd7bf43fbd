#include "synthetic/canvas.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally::synthetic {
namespace {

constexpr int sub_bits = 6;

cv::Point fixed(const Canvas& canvas, const cv::Point2d& mm) {
    const double one = 1 << sub_bits;
    return {cvRound((mm.x * canvas.px_per_mm - 0.5) * one), cvRound((mm.y * canvas.px_per_mm - 0.5) * one)};
}

cv::Scalar opaque(const Colour& c) { return {c[0], c[1], c[2], 255.0}; }

/// Part of pixel `i` between two places along an axis.
double coverage(int i, double from, double to) {
    return std::max(0.0, std::min(to, i + 1.0) - std::max(from, static_cast<double>(i)));
}

void blend(cv::Vec4b& pixel, const Colour& colour, double a) {
    for (int c = 0; c < 3; ++c)
        pixel[c] = cv::saturate_cast<uchar>(pixel[c] + a * (static_cast<double>(colour[c]) - pixel[c]));
    pixel[3] = cv::saturate_cast<uchar>(pixel[3] + a * (255.0 - pixel[3]));
}

}  // namespace

Canvas blank_canvas(double width_mm, double height_mm, double px_per_mm, const Colour& colour, int opacity) {
    Canvas canvas;
    canvas.px_per_mm = px_per_mm;
    canvas.pixels =
        cv::Mat4b(cvCeil(height_mm * px_per_mm), cvCeil(width_mm * px_per_mm),
                  cv::Vec4b(cv::saturate_cast<uchar>(colour[0]), cv::saturate_cast<uchar>(colour[1]),
                            cv::saturate_cast<uchar>(colour[2]), static_cast<uchar>(opacity)));
    return canvas;
}

void paint_box(Canvas& canvas, double x0, double y0, double x1, double y1, const Colour& colour,
               double strength) {
    const double s = canvas.px_per_mm;
    const int left = std::max(0, cvFloor(x0 * s)), right = std::min(canvas.pixels.cols, cvCeil(x1 * s));
    const int top = std::max(0, cvFloor(y0 * s)), bottom = std::min(canvas.pixels.rows, cvCeil(y1 * s));
    for (int y = top; y < bottom; ++y) {
        const double cy = coverage(y, y0 * s, y1 * s);
        for (int x = left; x < right; ++x)
            blend(canvas.pixels(y, x), colour, strength * cy * coverage(x, x0 * s, x1 * s));
    }
}

void paint_text(Canvas& canvas, const std::string& text, double x_mm, double y_mm, double height_mm,
                const Colour& colour, Upright upright, int face) {
    const double tall_px = height_mm * canvas.px_per_mm;
    const double scale = tall_px / 21.0;  // Hershey capitals are 21 units tall
    const int thickness = std::max(1, cvRound(tall_px * 0.11));
    int baseline = 0;
    const cv::Size box = cv::getTextSize(text, face, scale, thickness, &baseline);
    const int border = thickness + 2;
    cv::Mat1b ink = cv::Mat1b::zeros(box.height + 2 * border, box.width + 2 * border);
    cv::putText(ink, text, {border, border + box.height}, face, scale, cv::Scalar(255), thickness,
                cv::LINE_AA);
    if (upright == Upright::down) cv::rotate(ink, ink, cv::ROTATE_180);
    const int x0 = cvRound(x_mm * canvas.px_per_mm) - ink.cols / 2,
              y0 = cvRound(y_mm * canvas.px_per_mm) - ink.rows / 2;
    const cv::Rect place =
        cv::Rect(x0, y0, ink.cols, ink.rows) & cv::Rect(0, 0, canvas.pixels.cols, canvas.pixels.rows);
    for (int y = place.y; y < place.y + place.height; ++y)
        for (int x = place.x; x < place.x + place.width; ++x)
            if (const int a = ink(y - y0, x - x0); a > 0) blend(canvas.pixels(y, x), colour, a / 255.0);
}

void paint_polygon(Canvas& canvas, const std::vector<cv::Point2d>& outline, const Colour& colour) {
    std::vector<cv::Point> points;
    for (const auto& p : outline) points.push_back(fixed(canvas, p));
    cv::fillPoly(canvas.pixels, std::vector<std::vector<cv::Point>>{points}, opaque(colour), cv::LINE_AA,
                 sub_bits);
}

void paint_disc(Canvas& canvas, double x_mm, double y_mm, double radius_mm, const Colour& colour) {
    const double one = 1 << sub_bits;
    cv::circle(canvas.pixels, fixed(canvas, {x_mm, y_mm}), cvRound(radius_mm * canvas.px_per_mm * one),
               opaque(colour), cv::FILLED, cv::LINE_AA, sub_bits);
}

}  // namespace ridgetally::synthetic
