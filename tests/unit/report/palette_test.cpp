#include "report/draw/palette.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace ridgetally {
namespace {

using Rgb = std::array<double, 3>;

/// sRGB to linear light (IEC 61966-2-1).
Rgb linear(const cv::Scalar& bgr) {
    const auto channel = [](double v) {
        const double x = v / 255.0;
        return x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4);
    };
    return {channel(bgr[2]), channel(bgr[1]), channel(bgr[0])};
}

double luminance(const Rgb& c) { return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]; }

/// Contrast ratio of W3C WCAG 2.1, success criterion 1.4.3.
double contrast(const cv::Scalar& a, const cv::Scalar& b) {
    const double la = luminance(linear(a)) + 0.05;
    const double lb = luminance(linear(b)) + 0.05;
    return std::max(la, lb) / std::min(la, lb);
}

/// CIE 1976 L*a*b* for the D65 white of sRGB.
Rgb lab(const Rgb& c) {
    const auto f = [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116.0; };
    const double x = f((0.4124 * c[0] + 0.3576 * c[1] + 0.1805 * c[2]) / 0.9505);
    const double y = f(0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]);
    const double z = f((0.0193 * c[0] + 0.1192 * c[1] + 0.9505 * c[2]) / 1.089);
    return {116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)};
}

using Matrix = std::array<double, 9>;

/// G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, IEEE TVCG 15(6), 2009: full protanopia, deuteranopia
/// and tritanopia on linear RGB (matrices of the paper's table, from memory), and normal vision.
const std::vector<std::pair<std::string, Matrix>> visions = {
    {"normal", {1, 0, 0, 0, 1, 0, 0, 0, 1}},
    {"protanopia",
     {0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998}},
    {"deuteranopia",
     {0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881}},
    {"tritanopia",
     {1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.303900}},
};

Rgb seen(const Matrix& m, const Rgb& c) {
    Rgb out{};
    for (std::size_t i = 0; i < 3; ++i) {
        out[i] = std::clamp(m[3 * i] * c[0] + m[3 * i + 1] * c[1] + m[3 * i + 2] * c[2], 0.0, 1.0);
    }
    return out;
}

double difference(const Rgb& a, const Rgb& b) { return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]); }

// A difference of 2.3 in L*a*b* is just noticeable (M. Mahy et al., Color Research and Application 19, 1994);
// thin lines need far more, ten times that is asked for.
TEST(Palette, LinesStayApartForEveryKindOfColourVision) {
    const std::vector<std::pair<std::string, cv::Scalar>> roles = {{"rows", palette::row_ridge},
                                                                   {"stitches", palette::stitch_ridge},
                                                                   {"outline", palette::outline},
                                                                   {"marks", palette::ruler_mark}};
    for (const auto& [vision, matrix] : visions) {
        for (std::size_t i = 0; i < roles.size(); ++i) {
            for (std::size_t j = i + 1; j < roles.size(); ++j) {
                const double apart = difference(lab(seen(matrix, linear(roles[i].second))),
                                                lab(seen(matrix, linear(roles[j].second))));
                EXPECT_GT(apart, 23.0) << vision << ": " << roles[i].first << " and " << roles[j].first;
            }
        }
    }
}

TEST(Palette, CaptionsReachTheContrastOfAccessibleText) {
    // WCAG 2.1: 7 : 1 is level AAA for text of any size.
    EXPECT_GE(contrast(palette::panel_text, palette::panel), 7.0);
    EXPECT_GE(contrast(palette::panel_quiet_text, palette::panel), 7.0);
    EXPECT_GE(contrast(palette::panel_warning, palette::panel), 7.0);
}

TEST(Palette, EveryLineStandsOutFromItsEdge) {
    // WCAG 2.1, 1.4.11: 3 : 1 for graphics.
    EXPECT_GE(contrast(palette::row_ridge, palette::casing), 3.0);
    EXPECT_GE(contrast(palette::stitch_ridge, palette::casing), 3.0);
    EXPECT_GE(contrast(palette::outline, palette::casing), 3.0);
    EXPECT_GE(contrast(palette::ruler_mark, palette::light_casing), 3.0);
}

}  // namespace
}  // namespace ridgetally
