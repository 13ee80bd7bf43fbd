#include "unit/scale/drawn_ruler.h"

#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <string>

#include "core/random.h"
#include "core/units.h"

namespace ridgetally::drawn {
namespace {

constexpr double focal_widths = 0.72;  // of a phone's main camera, 26 mm on a 36 mm wide frame
constexpr double digit_high_mm = 2.8;
constexpr double digit_wide_mm = 1.6;

/// Segments a to g of a seven-segment digit, bit 0 = a (top), clockwise, g in the middle.
constexpr std::array<int, 10> segments{0x3F, 0x06, 0x5B, 0x4F, 0x66, 0x6D, 0x7D, 0x07, 0x7F, 0x6F};

bool in_box(double x, double y, double x0, double y0, double x1, double y1) {
    return x >= x0 && x <= x1 && y >= y0 && y <= y1;
}

int marks_a_numeral(const Rule& rule) {
    return rule.unit == LengthUnit::mm ? 10 * rule.divisions : rule.divisions;
}

bool in_numeral(const Rule& rule, double x, double y) {
    const double step = marks_a_numeral(rule) * spacing_mm(rule);
    const int number = static_cast<int>(std::lround((x - rule.first_mm) / step));
    if (number < 1 || number * marks_a_numeral(rule) >= mark_count(rule)) return false;
    const std::string text = std::to_string(number);
    const double pitch = digit_wide_mm + 0.6;
    double left =
        x - (rule.first_mm + number * step) + 0.5 * (pitch * static_cast<double>(text.size()) - 0.6);
    for (const char c : text) {
        if (in_digit(c - '0', left, y - rule.long_mm - 1.2)) return true;
        left -= pitch;
    }
    return false;
}

double grey_at(const Rule& rule, double x, double y) {
    if (!in_box(x, y, 0.0, 0.0, rule.length_mm, rule.width_mm)) return rule.table;
    if (rule.covered_from_mm && x >= *rule.covered_from_mm && x <= *rule.covered_from_mm + 20.0) return 235.0;
    const int k = static_cast<int>(std::lround((x - rule.first_mm) / spacing_mm(rule)));
    if (k >= 0 && k < mark_count(rule) && y <= mark_length_mm(rule, k) &&
        std::abs(x - rule.first_mm - k * spacing_mm(rule)) <= rule.thick_mm / 2.0)
        return rule.ink;
    return rule.numerals && in_numeral(rule, x, y) ? rule.ink : rule.body;
}

}  // namespace

bool in_digit(int digit, double x, double y) {
    const double w = digit_wide_mm;
    const double h = digit_high_mm;
    const double t = 0.35;
    const int on = segments[static_cast<std::size_t>(digit)];
    const auto lit = [on](int bit) { return (on >> bit & 1) != 0; };
    return (lit(0) && in_box(x, y, 0, 0, w, t)) || (lit(1) && in_box(x, y, w - t, 0, w, h / 2)) ||
           (lit(2) && in_box(x, y, w - t, h / 2, w, h)) || (lit(3) && in_box(x, y, 0, h - t, w, h)) ||
           (lit(4) && in_box(x, y, 0, h / 2, t, h)) || (lit(5) && in_box(x, y, 0, 0, t, h / 2)) ||
           (lit(6) && in_box(x, y, 0, (h - t) / 2, w, (h + t) / 2));
}

double spacing_mm(const Rule& rule) {
    return (rule.unit == LengthUnit::mm ? 1.0 : mm_per_inch) / rule.divisions;
}

int mark_count(const Rule& rule) {
    const double whole = marks_a_numeral(rule) * spacing_mm(rule);
    return static_cast<int>((rule.length_mm - 2.0 * rule.first_mm) / whole) * marks_a_numeral(rule) + 1;
}

double mark_length_mm(const Rule& rule, int k) {
    // Shares of the longest mark as on common rules: cm 1, half cm 0.75, mm 0.5, half mm 0.33; inch 1, 1/2
    // 0.8, 1/4 0.62, 1/8 0.46, 1/16 0.32 (common practice, no source).
    const int d = rule.divisions;
    if (rule.all_alike) return 0.5 * rule.long_mm;
    if (rule.unit == LengthUnit::mm) {
        if (k % (10 * d) == 0) return rule.long_mm;
        if (k % (5 * d) == 0) return 0.75 * rule.long_mm;
        return (k % d == 0 ? 0.5 : 0.33) * rule.long_mm;
    }
    double share = 1.0;
    for (int step = d; step >= 1; step /= 2) {
        if (k % step == 0) break;
        share -= step == d ? 0.2 : 0.17;
    }
    return share * rule.long_mm;
}

PhotoFromObject photo_from_rule(const Rule& rule, const View& view) {
    const double turn = view.turn_deg / degrees_per_radian;
    const double tilt = view.tilt_deg / degrees_per_radian;
    const double axis = view.tilt_axis_deg / degrees_per_radian;
    const double f = focal_widths * std::max(view.size.width, view.size.height);
    const double distance = f / view.px_per_mm;
    const Matrix3 centred{1, 0, -rule.length_mm / 2.0, 0, 1, -rule.width_mm / 2.0, 0, 0, 1};
    const Matrix3 turned{std::cos(turn), -std::sin(turn), 0, std::sin(turn), std::cos(turn), 0, 0, 0, 1};
    const auto spin = [](double a) {
        return Matrix3{std::cos(a), -std::sin(a), 0, std::sin(a), std::cos(a), 0, 0, 0, 1};
    };
    // A plane turned by the tilt about the x axis, seen from the distance (Hartley and Zisserman,
    // section 8.1).
    const Matrix3 seen{f, 0, 0, 0, f * std::cos(tilt), 0, 0, std::sin(tilt), distance};
    const Matrix3 placed{1, 0, 0.5 * view.size.width + view.shift_x_px,
                         0, 1, 0.5 * view.size.height + view.shift_y_px,
                         0, 0, 1};
    return {
        product(placed, product(spin(axis), product(seen, product(spin(-axis), product(turned, centred)))))};
}

Photo finished(cv::Mat1f picture, const View& view) {
    if (view.blur_px > 0.0) cv::GaussianBlur(picture, picture, {}, view.blur_px);
    Random random(view.seed);
    cv::Mat bgr(picture.size(), CV_8UC3);
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x) {
            const auto v =
                cv::saturate_cast<uchar>(static_cast<double>(picture(y, x)) + random.normal(0.0, view.noise));
            bgr.at<cv::Vec3b>(y, x) = {v, v, v};
        }
    }
    Photo photo = photo_from_pixels(bgr);
    photo.file = "drawn";
    return photo;
}

Photo photo_of(const Rule& rule, const View& view) {
    const auto rule_from_photo = inverse(photo_from_rule(rule, view));
    return photo_of_pattern(view, [&](double x, double y) {
        const ObjectPoint p = (*rule_from_photo)(PhotoPoint{x, y});
        return grey_at(rule, p.x, p.y);
    });
}

}  // namespace ridgetally::drawn
