#pragma once

#include <vector>

#include "core/geometry.h"

namespace ridgetally {

/// A nearly round closed curve: distance from `centre` at an angle is radius + cos2 cos 2a + sin2 sin 2a.
struct RoundCurve {
    ObjectPoint centre_mm;
    double radius_mm = 0.0;
    double cos2_mm = 0.0;
    double sin2_mm = 0.0;
    double spread_mm = 0.0;    ///< robust standard deviation of the points' distances from it
    double inlier_part = 0.0;  ///< points within four of those, 0 to 1

    [[nodiscard]] double radius_at(double angle_rad) const;
};

/// Whether the curve may be longer one way than the other.
enum class CurveShape { circle, oval };

/// Whether points far from the curve are played down (Tukey's biweight: Huber and Ronchetti, Robust
/// Statistics, 2nd ed., section 4.8) or all count alike.
enum class PointWeights { even, biweight };

/// Least-squares fit of distances to points around it, from the points' own middle. For a circle with even
/// weights this is the orthogonal distance fit (W. Gander, G. Golub, R. Strebel, BIT 34, 1994).
/// Throws std::invalid_argument for fewer than eight points.
[[nodiscard]] RoundCurve fit_round_curve(const std::vector<ObjectPoint>& points, CurveShape shape,
                                         PointWeights weights = PointWeights::biweight);

}  // namespace ridgetally
