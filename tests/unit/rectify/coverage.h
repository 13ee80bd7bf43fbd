#pragma once

#include <cmath>
#include <vector>

#include "core/measured.h"
#include "rectify/rectification.h"

namespace ridgetally::testing {

/// How often an error lies within its stated uncertainty.
struct Coverage {
    int within68 = 0;
    int within95 = 0;
    int all = 0;
    double squares = 0.0;

    void count(double error, double std) {
        ++all;
        within68 += std::abs(error) < std ? 1 : 0;
        within95 += std::abs(error) < coverage_factor_95 * std ? 1 : 0;
        squares += error * error;
    }
    [[nodiscard]] double part68() const { return static_cast<double>(within68) / all; }
    [[nodiscard]] double part95() const { return static_cast<double>(within95) / all; }
    [[nodiscard]] double rms() const { return std::sqrt(squares / all); }
};

inline double combined(const std::vector<Contribution>& parts) { return measured(1.0, parts).std; }

/// By how much a length of 2 mm at a photo point is measured too long, relative, along (dx, dy) of the
/// object.
inline double length_error(const Rectification& r, const PhotoFromObject& truth, const PhotoPoint& at,
                           double dx, double dy, double height_mm) {
    const auto back = *inverse(photo_from_plane_at(r, height_mm));
    const ObjectPoint p = (*inverse(truth))(at);
    const ObjectPoint a = back(truth(ObjectPoint{p.x - dx, p.y - dy}));
    const ObjectPoint b = back(truth(ObjectPoint{p.x + dx, p.y + dy}));
    return std::hypot(b.x - a.x, b.y - a.y) / 2.0 - 1.0;
}

}  // namespace ridgetally::testing
