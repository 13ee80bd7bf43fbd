#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// A flat picture of a thing in its own millimetres, blue-green-red-opacity, 8 bit. Pixel centres lie at
/// ((column + 0.5) / scale, (row + 0.5) / scale) mm.
struct Canvas {
    cv::Mat4b pixels;
    double px_per_mm = 10.0;

    [[nodiscard]] double width_mm() const { return pixels.cols / px_per_mm; }
    [[nodiscard]] double height_mm() const { return pixels.rows / px_per_mm; }
};

[[nodiscard]] Canvas blank_canvas(double width_mm, double height_mm, double px_per_mm, const Colour& colour,
                                  int opacity);

/// Paints an upright rectangle with exact coverage of partly covered pixels. `strength` 0..1. The paint is
/// opaque.
void paint_box(Canvas& canvas, double x0, double y0, double x1, double y1, const Colour& colour,
               double strength);

/// Which way up a text stands.
enum class Upright { up, down };

/// Paints text centred at a place, letters `height_mm` tall.
void paint_text(Canvas& canvas, const std::string& text, double x_mm, double y_mm, double height_mm,
                const Colour& colour, Upright upright, int face);

/// Paints a filled polygon (mm).
void paint_polygon(Canvas& canvas, const std::vector<cv::Point2d>& outline, const Colour& colour);

/// Paints a filled disc (mm).
void paint_disc(Canvas& canvas, double x_mm, double y_mm, double radius_mm, const Colour& colour);

}  // namespace ridgetally::synthetic
