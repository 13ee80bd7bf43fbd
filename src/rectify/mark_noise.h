#pragma once

#include <vector>

namespace ridgetally {

/// Standard deviation of the residuals of one kind along one mark line, px.
struct MarkNoise {
    double along = 0.3;
    double across = 0.3;
    double direction = 0.4;
};

/// Robust standard deviation of residuals in the order of their marks: 1.4826 times the median of their sizes
/// (Huber and Ronchetti, section 5.1), for `fitted` parameters, pooled with `expected` as if that had been
/// seen on four more marks, so that a handful of marks that happen to fit does not claim certainty.
[[nodiscard]] double noise_of(const std::vector<double>& residuals, int fitted, double expected);

/// How many times fewer independent residuals there are than residuals: 1 + 2 sum of their autocorrelations
/// up to the first that is not positive (the integrated autocorrelation time, Geyer, Statistical Science 7,
/// 1992). At least 1; 1 for fewer than twelve. Residuals over four times `noise` are left out.
[[nodiscard]] double repetition_of(const std::vector<double>& residuals, double noise);

/// How unevenly marks are spaced after the model, as relative standard deviation of lengths over a sixth of
/// the line: root mean square slope between the medians of six sections, less what noise alone would make of
/// it. A lens that bends lines, a warped rule or a wrong reading show here. `positions` in the order of
/// `residuals`, both in mm. 0 for fewer than 24 marks.
[[nodiscard]] double unevenness_of(const std::vector<double>& positions,
                                   const std::vector<double>& residuals);

}  // namespace ridgetally
