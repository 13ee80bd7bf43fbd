#include "core/geometry.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ridgetally {
namespace {

const PhotoFromObject tilted{{4.0, 0.3, 100.0, -0.2, 3.8, 50.0, 1e-3, 2e-3, 1.0}};

TEST(Projective, InverseUndoesTheTransform) {
    const auto back = inverse(tilted);
    ASSERT_TRUE(back);
    const auto there = (*back)(tilted({12.5, -7.25}));
    EXPECT_NEAR(there.x, 12.5, 1e-9);
    EXPECT_NEAR(there.y, -7.25, 1e-9);
}

TEST(Projective, SingularMatrixHasNoInverse) {
    EXPECT_FALSE(inverse(Matrix3{1, 2, 3, 2, 4, 6, 0, 0, 1}));
    EXPECT_FALSE(inverse(Matrix3{}));
}

TEST(Projective, ComposeAppliesTheRightOneFirst) {
    const Projective<frame::RectifiedPx, frame::PhotoPx> doubled{{2, 0, 0, 0, 2, 0, 0, 0, 1}};
    const auto p = compose(doubled, tilted)(ObjectPoint{3, 4});
    const auto q = tilted({3, 4});
    EXPECT_NEAR(p.x, 2 * q.x, 1e-12);
    EXPECT_NEAR(p.y, 2 * q.y, 1e-12);
}

TEST(Projective, LocalScaleMatchesAFiniteDifference) {
    const ObjectPoint at{20, 30};
    const double step = 1e-5;
    const auto p = tilted(at);
    const auto q = tilted({at.x + 0.6 * step, at.y + 0.8 * step});
    EXPECT_NEAR(px_per_mm_along(tilted, at, 0.6, 0.8), std::hypot(q.x - p.x, q.y - p.y) / step, 1e-4);
}

}  // namespace
}  // namespace ridgetally
