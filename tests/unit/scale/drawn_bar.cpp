#include "unit/scale/drawn_bar.h"

#include <cmath>
#include <string>

namespace ridgetally::drawn {
namespace {

double length_mm(const Bar& bar) { return bar.divisions * bar.division_mm; }
double printed_mm(const Bar& bar) { return std::max(2.0 * bar.fine_mm, bar.long_mm); }
double height_mm(const Bar& bar) { return printed_mm(bar) + 5.0; }

/// A rule of the same size as the bar's body: the camera is the same for both.
Rule body_of(const Bar& bar) {
    Rule body;
    body.length_mm = length_mm(bar) + 2.0 * bar.margin_mm;
    body.width_mm = height_mm(bar) + 1.0;
    return body;
}

bool near_multiple(double x, double step, double half) {
    return std::abs(x - std::round(x / step) * step) <= half;
}

bool in_numerals(const Bar& bar, double x, double y) {
    const int number = static_cast<int>(std::lround(x / bar.division_mm));
    const std::string text = std::to_string(number);
    constexpr double pitch = 2.2;
    double left = x - number * bar.division_mm + 0.5 * (pitch * static_cast<double>(text.size()) - 0.6);
    for (const char c : text) {
        if (in_digit(c - '0', left, y - printed_mm(bar) - 1.0)) return true;
        left -= pitch;
    }
    return false;
}

/// Whether there is ink at a place within the printed part.
bool inked(const Bar& bar, double x, double y) {
    const double half = 0.5 * bar.thick_mm;
    const double cell = bar.division_mm;
    const bool on_long = near_multiple(x, cell, 1.5 * half);
    const bool on_fine = near_multiple(x, cell / bar.fine, half);
    const bool block = static_cast<long>(std::floor(x / cell)) % 2 != 0;
    switch (bar.make) {
        case BarMake::blocks:
            if (y < bar.fine_mm) return on_fine || on_long;
            return on_long || block || std::abs(y - bar.fine_mm) < 1.5 * half ||
                   std::abs(y - 2.0 * bar.fine_mm) < 1.5 * half;
        case BarMake::long_lines:
            return (on_fine && y < bar.fine_mm) || (on_long && y < bar.long_mm);
        case BarMake::first_only:
            if (y < bar.fine_mm) return on_long || (on_fine && x < cell);
            return on_long || block || std::abs(y - bar.fine_mm) < 1.5 * half ||
                   std::abs(y - 2.0 * bar.fine_mm) < 1.5 * half;
    }
    return false;
}

double grey_at(const Bar& bar, double x, double y) {
    if (x < -bar.margin_mm || x > length_mm(bar) + bar.margin_mm || y < -1.0 || y > height_mm(bar))
        return bar.table;
    const double half = 0.75 * bar.thick_mm;
    const bool beside = x < -half || x > length_mm(bar) + half;
    if (y >= 0.0 && y <= printed_mm(bar) + half && !beside) return inked(bar, x, y) ? bar.ink : bar.body;
    return bar.numerals && in_numerals(bar, x, y) ? bar.ink : bar.body;
}

}  // namespace

PhotoFromObject photo_from_bar(const Bar& bar, const View& view) {
    const PhotoFromObject from_body = photo_from_rule(body_of(bar), view);
    return {product(from_body.matrix, Matrix3{1, 0, bar.margin_mm, 0, 1, 1.0, 0, 0, 1})};
}

Photo photo_of(const Bar& bar, const View& view) {
    const auto bar_from_photo = inverse(photo_from_bar(bar, view));
    return photo_of_pattern(view, [&](double x, double y) {
        const ObjectPoint p = (*bar_from_photo)(PhotoPoint{x, y});
        return grey_at(bar, p.x, p.y);
    });
}

}  // namespace ridgetally::drawn
