#pragma once

#include <cstdint>
#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "core/geometry.h"
#include "image/photo.h"
#include "scale/scale_reference.h"

namespace ridgetally::drawn {

/// A rule drawn by formula: marks as boxes of exact length, from the edge y = 0 inwards.
struct Rule {
    LengthUnit unit = LengthUnit::mm;
    int divisions = 1;         ///< marks a millimetre (1, 2) or an inch (8, 16)
    double length_mm = 150.0;  ///< of the body
    double width_mm = 28.0;
    double first_mm = 4.0;  ///< from the body's end to the first mark
    double long_mm = 7.0;   ///< length of the cm or inch marks; the shorter classes follow from it
    double thick_mm = 0.2;
    double body = 205.0;  ///< grey levels
    double ink = 45.0;
    double table = 120.0;
    bool numerals = true;                   ///< seven-segment digits at every cm or inch
    bool all_alike = false;                 ///< every mark as long as the shortest: a comb
    std::optional<double> covered_from_mm;  ///< a slip of paper hides 20 mm from here on
};

/// A camera over the table and what it adds.
struct View {
    cv::Size size{900, 600};
    double px_per_mm = 5.0;      ///< at the rule's middle
    double turn_deg = 0.0;       ///< of the rule in the picture
    double tilt_deg = 0.0;       ///< of the camera
    double tilt_axis_deg = 0.0;  ///< direction of the tilt
    double shift_x_px = 0.0;     ///< of the rule's middle from the picture's
    double shift_y_px = 0.0;
    double blur_px = 0.6;
    double noise = 1.5;
    std::uint64_t seed = 1;
};

/// Whether a place lies on a seven-segment digit, 1.6 mm wide and 2.8 mm high, from its upper left corner.
[[nodiscard]] bool in_digit(int digit, double x_mm, double y_mm);

/// Spacing of the finest marks.
[[nodiscard]] double spacing_mm(const Rule& rule);
/// Length of mark k, and how many marks the rule has.
[[nodiscard]] double mark_length_mm(const Rule& rule, int k);
[[nodiscard]] int mark_count(const Rule& rule);

/// Photo from millimetres on the rule's face, x along the edge from the body's end, y inwards.
[[nodiscard]] PhotoFromObject photo_from_rule(const Rule& rule, const View& view);

/// The picture.
[[nodiscard]] Photo photo_of(const Rule& rule, const View& view);

/// A picture of a function of the pixel, grey, with the view's size, blur and noise.
template <typename Grey>
[[nodiscard]] Photo photo_of_pattern(const View& view, const Grey& grey);

[[nodiscard]] Photo finished(cv::Mat1f picture, const View& view);

template <typename Grey>
Photo photo_of_pattern(const View& view, const Grey& grey) {
    // Nine samples a pixel, no two in one column or row (a lattice rule): an upright edge is drawn to a ninth
    // of a pixel. On a square grid of nine it would be a third, and a mark's place off by 0.1 px (rms).
    constexpr int samples = 9;
    cv::Mat1f picture(view.size);
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x) {
            double sum = 0.0;
            for (int s = 0; s < samples; ++s)
                sum += grey(x + (s - 4.0) / samples, y + (2 * s % samples - 4.0) / samples) / samples;
            picture(y, x) = static_cast<float>(sum);
        }
    }
    return finished(picture, view);
}

}  // namespace ridgetally::drawn
