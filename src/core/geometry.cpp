#include "core/geometry.h"

#include <cmath>

namespace ridgetally {

Matrix3 identity3() { return {1, 0, 0, 0, 1, 0, 0, 0, 1}; }

Matrix3 product(const Matrix3& a, const Matrix3& b) {
    Matrix3 result{};
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            for (std::size_t k = 0; k < 3; ++k)
                result[3 * row + column] += a[3 * row + k] * b[3 * k + column];
        }
    }
    return result;
}

double determinant(const Matrix3& m) {
    return m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) +
           m[2] * (m[3] * m[7] - m[4] * m[6]);
}

std::optional<Matrix3> inverse(const Matrix3& m) {
    const double det = determinant(m);
    double scale = 0.0;
    for (const double value : m) scale = std::max(scale, std::abs(value));
    // Singular to double precision: the determinant has lost all digits against its terms.
    if (!std::isfinite(det) || std::abs(det) <= 1e-15 * scale * scale * scale * 1e-6 || det == 0.0)
        return std::nullopt;
    Matrix3 result = {m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
                      m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
                      m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]};
    for (double& value : result) value /= det;
    return result;
}

double px_per_mm_along(const PhotoFromObject& t, const ObjectPoint& at, double dx, double dy) {
    const auto& m = t.matrix;
    const double w = m[6] * at.x + m[7] * at.y + m[8];
    const auto p = t(at);
    const double dw = m[6] * dx + m[7] * dy;
    const double du = (m[0] * dx + m[1] * dy - p.x * dw) / w;
    const double dv = (m[3] * dx + m[4] * dy - p.y * dw) / w;
    return std::hypot(du, dv) / std::hypot(dx, dy);
}

}  // namespace ridgetally
