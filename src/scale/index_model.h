#pragma once

#include <vector>

#include "scale/robust_fit.h"

namespace ridgetally {

/// Position of mark k along a row of evenly spaced marks seen by a camera:
/// u(k) = (a x + b) / (c x + 1) + d x^3 with x = (k - centre) / half_range. The first part is the projective
/// map of a line (Hartley and Zisserman, section 2.5); the cubic takes up a bent tape and the lens.
struct IndexModel {
    double centre = 0.0;
    double half_range = 1.0;
    double a = 1.0;
    double b = 0.0;
    double c = 0.0;
    double d = 0.0;
    double residual = 0.0;  ///< robust rms of the samples it was fitted to

    [[nodiscard]] double position(double index) const;
    [[nodiscard]] double index(double position) const;  ///< inverse, by Newton's method
    [[nodiscard]] double spacing(double index) const;   ///< du per index
};

/// Robust fit to (x = index, y = position); the cubic is fitted from 12 samples on. `floor` is the smallest
/// scale believed.
[[nodiscard]] IndexModel fit_index_model(const std::vector<Sample>& samples, double floor);

}  // namespace ridgetally
