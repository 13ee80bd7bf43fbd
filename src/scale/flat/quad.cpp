#include "scale/flat/quad.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/units.h"

namespace ridgetally {

std::optional<QuadShape> shape_of(const Quad& quad, const ViewPriors& view) {
    const std::array<cv::Point2f, 4> unit = {cv::Point2f(0, 0), {1, 0}, {1, 1}, {0, 1}};
    std::array<cv::Point2f, 4> seen;
    // Without the camera matrix, so that single precision corners of getPerspectiveTransform lose nothing.
    for (std::size_t i = 0; i < 4; ++i) {
        const cv::Point2d p = (quad[i] - view.principal_px) * (1.0 / view.focal_px);
        seen[i] = cv::Point2f(static_cast<float>(p.x), static_cast<float>(p.y));
    }
    const cv::Matx33d h = cv::getPerspectiveTransform(unit.data(), seen.data());
    const cv::Vec3d first(h(0, 0), h(1, 0), h(2, 0));
    const cv::Vec3d second(h(0, 1), h(1, 1), h(2, 1));
    const double a = cv::norm(first);
    const double b = cv::norm(second);
    if (!(a > 0.0) || !(b > 0.0) || !std::isfinite(a) || !std::isfinite(b)) return std::nullopt;
    const cv::Vec3d normal = first.cross(second);
    QuadShape shape;
    shape.aspect = a / b;
    shape.cosine = first.dot(second) / (a * b);
    shape.tilt_deg =
        std::acos(std::clamp(std::abs(normal[2]) / cv::norm(normal), 0.0, 1.0)) * degrees_per_radian;
    return shape;
}

double area_of(const Quad& quad) {
    double twice = 0.0;
    for (std::size_t i = 0; i < 4; ++i) twice += quad[i].cross(quad[(i + 1) % 4]);
    return std::abs(twice) / 2.0;
}

double shortest_side(const Quad& quad) {
    double shortest = cv::norm(quad[0] - quad[3]);
    for (std::size_t i = 0; i < 3; ++i) shortest = std::min(shortest, cv::norm(quad[i + 1] - quad[i]));
    return shortest;
}

bool is_proper(const Quad& quad, const cv::Size& size, double inset) {
    for (std::size_t i = 0; i < 4; ++i) {
        const auto& p = quad[i];
        if (p.x < inset || p.y < inset || p.x > size.width - 1 - inset || p.y > size.height - 1 - inset)
            return false;
        const cv::Point2d side = quad[(i + 1) % 4] - p;
        const cv::Point2d next = quad[(i + 2) % 4] - quad[(i + 1) % 4];
        if (side.cross(next) <= 0.0) return false;
    }
    return true;
}

Quad turned(const Quad& quad) { return {quad[1], quad[2], quad[3], quad[0]}; }

std::optional<cv::Point2d> crossing(const cv::Point2d& p, const cv::Point2d& along_p, const cv::Point2d& q,
                                    const cv::Point2d& along_q) {
    const double turn = along_p.cross(along_q);
    if (std::abs(turn) < 1e-6) return std::nullopt;
    return p + along_p * ((q - p).cross(along_q) / turn);
}

}  // namespace ridgetally
