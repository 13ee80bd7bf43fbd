#pragma once

#include <vector>

namespace ridgetally {

/// The part of a scale that a plot shows, with round numbers to mark.
struct PlotAxis {
    double low = 0.0;
    double high = 1.0;
    std::vector<double> marks;

    /// Where a value lies between the ends, 0 to 1.
    [[nodiscard]] double place(double value) const { return (value - low) / (high - low); }
};

/// An axis that holds all values, with at most `most_marks` marks at multiples of 1, 2 or 5 times a power of
/// ten. Throws std::invalid_argument where there are no values.
[[nodiscard]] PlotAxis plot_axis(const std::vector<double>& values, int most_marks);

}  // namespace ridgetally
