#include <cmath>

#include "core/units.h"
#include "rectify/rectification.h"

namespace ridgetally {
namespace {

/// Object vector of one mm in a direction.
struct Direction {
    double x = 1.0;
    double y = 0.0;
};

/// How much longer a small object step at `at` is read by the plane `truth` than by `used`, relative to 1.
double length_error(const PhotoFromObject& used, const ObjectFromPhoto& truth, const ObjectPoint& at,
                    const Direction& d) {
    constexpr double step_mm = 0.5;
    const ObjectPoint a = truth(used(ObjectPoint{at.x - step_mm * d.x, at.y - step_mm * d.y}));
    const ObjectPoint b = truth(used(ObjectPoint{at.x + step_mm * d.x, at.y + step_mm * d.y}));
    return std::hypot(b.x - a.x, b.y - a.y) / (2.0 * step_mm) - 1.0;
}

std::vector<Direction> directions_of(std::optional<double> direction_deg) {
    if (direction_deg) {
        const double angle = *direction_deg / degrees_per_radian;
        return {{std::cos(angle), std::sin(angle)}};
    }
    return {{1.0, 0.0}, {0.0, 1.0}};
}

struct Query {
    PhotoFromObject used;
    ObjectPoint at;
    std::vector<Direction> directions;
};

/// Mean squared length error over the directions where the truth were this other plane.
double squared_error(const Query& query, const PhotoFromObject& other) {
    const auto truth = inverse(other);
    if (!truth) return 1.0;
    double sum = 0.0;
    for (const auto& direction : query.directions) {
        const double e = length_error(query.used, *truth, query.at, direction);
        sum += e * e;
    }
    return sum / static_cast<double>(query.directions.size());
}

/// Mean square over a move to either side, which keeps effects that do not change sign (cosines).
double squared_error(const Query& query, const Rectification& r, PoseDelta move, double height_mm) {
    double sum = 0.0;
    for (const double side : {-1.0, 1.0}) {
        PoseDelta delta{};
        for (std::size_t i = 0; i < delta.size(); ++i) delta[i] = side * move[i];
        sum += squared_error(query, photo_from_plane(moved(r.pose, r.reference_middle_mm, delta), height_mm));
    }
    return sum / 2.0;
}

/// Phones straighten their pictures; what is left at the corners is taken as 0.3 % of the distance from the
/// middle (assumption), growing with the cube of that distance (first radial term of Brown, Photogrammetric
/// Engineering 37(8), 1971). The local scale then differs by three times the square along a radius and by the
/// square across it, twice on average.
double lens_part(const CameraPose& pose, const PhotoPoint& reference, const PhotoPoint& where) {
    constexpr double corner_std = 0.003;
    const PhotoPoint& middle = pose.principal_px;
    const double corner = std::hypot(middle.x, middle.y);
    const auto squared_distance = [&](const PhotoPoint& p) {
        const double rho = std::hypot(p.x - middle.x, p.y - middle.y) / corner;
        return rho * rho;
    };
    return 2.0 * corner_std * std::abs(squared_distance(where) - squared_distance(reference));
}

}  // namespace

PhotoFromObject photo_from_plane_at(const Rectification& rectification, double height_mm) {
    return photo_from_plane(rectification.pose, height_mm);
}

std::vector<Contribution> scale_budget_at(const Rectification& r, const PhotoPoint& where, double height_mm,
                                          double height_std_mm, std::optional<double> direction_deg) {
    Query query{photo_from_plane(r.pose, height_mm), {}, directions_of(direction_deg)};
    const auto back = inverse(query.used);
    if (!back) return {{"camera tilt", 1.0}};
    query.at = (*back)(where);
    std::vector<Contribution> parts = r.reference_parts;
    const auto moves = independent_moves(r.covariance);
    const auto part = [&](const char* name, std::size_t from, std::size_t to) {
        double sum = 0.0;
        for (std::size_t i = from; i < to; ++i) sum += squared_error(query, r, moves[i], height_mm);
        parts.push_back({name, std::sqrt(sum)});
    };
    part("reference marks", about_z, pose_parameters);
    part("camera tilt", about_x, about_z);
    part("focal length", log_focal, about_x);
    parts.push_back({"lens distortion", lens_part(r.pose, r.reference_middle_px, where)});
    double height = 0.0;
    for (const double side : {-1.0, 1.0})
        height += squared_error(query, photo_from_plane(r.pose, height_mm + side * height_std_mm)) / 2.0;
    parts.push_back({"height", std::sqrt(height)});
    return parts;
}

}  // namespace ridgetally
