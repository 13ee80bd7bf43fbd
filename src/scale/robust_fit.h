#pragma once

#include <vector>

namespace ridgetally {

/// A polynomial in (x - centre) / half_range, so that its coefficients stay well scaled. Outside the range it
/// goes on along its tangent: an extrapolated parabola leaves the picture.
struct Polynomial {
    double centre = 0.0;
    double half_range = 1.0;
    std::vector<double> coefficients{0.0};

    [[nodiscard]] double operator()(double x) const;
    [[nodiscard]] double slope(double x) const;
};

/// One observation y at x with a weight of zero or more.
struct Sample {
    double x = 0.0;
    double y = 0.0;
    double weight = 1.0;
};

/// Polynomial of the given degree through samples with outliers: iteratively reweighted least squares with
/// Tukey's biweight, scale from the median absolute deviation (Huber, Robust Statistics, 1981, ch. 7),
/// started from the least absolute deviations. `floor` is the smallest scale believed. Fewer samples than
/// coefficients lower the degree; no sample gives the zero polynomial.
[[nodiscard]] Polynomial robust_polynomial(const std::vector<Sample>& samples, int degree, double floor);

/// The value below which the share `fraction` (0 to 1) of the values lies; 0 for an empty list.
[[nodiscard]] double quantile_of(std::vector<double> values, double fraction);

}  // namespace ridgetally
