#pragma once

#include <array>
#include <optional>

namespace ridgetally {

/// Frames. A point or transform carries its frame in its type, so that pixels of one picture are never
/// taken for those of another, nor for millimetres.
namespace frame {
struct PhotoPx;      ///< pixels of the upright photo, origin at the centre of the top left pixel, y down
struct ObjectMm;     ///< millimetres on the plane of the table (the ruler's face), y down
struct RectifiedPx;  ///< pixels of the rectified picture, y down
}  // namespace frame

/// A point of the plane in one frame.
template <typename Frame>
struct Point {
    double x = 0.0;
    double y = 0.0;
};

using PhotoPoint = Point<frame::PhotoPx>;
using ObjectPoint = Point<frame::ObjectMm>;
using RectifiedPoint = Point<frame::RectifiedPx>;

/// Row-major 3 x 3 matrix of a plane homography.
using Matrix3 = std::array<double, 9>;

[[nodiscard]] Matrix3 identity3();
[[nodiscard]] Matrix3 product(const Matrix3& a, const Matrix3& b);
[[nodiscard]] double determinant(const Matrix3& m);
/// Inverse; none where the matrix is singular to working precision.
[[nodiscard]] std::optional<Matrix3> inverse(const Matrix3& m);

/// A plane homography that takes points of frame From to frame To
/// (Hartley and Zisserman, Multiple View Geometry, 2nd ed., section 2.3).
template <typename To, typename From>
struct Projective {
    Matrix3 matrix = identity3();

    [[nodiscard]] Point<To> operator()(const Point<From>& p) const {
        const double w = matrix[6] * p.x + matrix[7] * p.y + matrix[8];
        return {(matrix[0] * p.x + matrix[1] * p.y + matrix[2]) / w,
                (matrix[3] * p.x + matrix[4] * p.y + matrix[5]) / w};
    }
};

template <typename To, typename From>
[[nodiscard]] std::optional<Projective<From, To>> inverse(const Projective<To, From>& t) {
    const auto m = inverse(t.matrix);
    if (!m) return std::nullopt;
    return Projective<From, To>{*m};
}

/// a after b.
template <typename To, typename Middle, typename From>
[[nodiscard]] Projective<To, From> compose(const Projective<To, Middle>& a,
                                           const Projective<Middle, From>& b) {
    return {product(a.matrix, b.matrix)};
}

using PhotoFromObject = Projective<frame::PhotoPx, frame::ObjectMm>;
using ObjectFromPhoto = Projective<frame::ObjectMm, frame::PhotoPx>;
using RectifiedFromPhoto = Projective<frame::RectifiedPx, frame::PhotoPx>;
using PhotoFromRectified = Projective<frame::PhotoPx, frame::RectifiedPx>;

/// Length of the picture of one object millimetre at `at`, along the direction (dx, dy) of the object plane.
[[nodiscard]] double px_per_mm_along(const PhotoFromObject& t, const ObjectPoint& at, double dx, double dy);

}  // namespace ridgetally
