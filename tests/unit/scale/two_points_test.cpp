#include "scale/two_points.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace ridgetally {
namespace {

TEST(TwoPoints, MakeALineOfTwoMarksWithoutDirection) {
    const auto reference = two_points_reference({100, 200}, {400, 600}, 50.0);
    ASSERT_TRUE(reference.ok());
    EXPECT_EQ(reference->kind, "two-points");
    ASSERT_EQ(reference->lines.size(), 1U);
    ASSERT_EQ(reference->lines[0].marks.size(), 2U);
    const auto& marks = reference->lines[0].marks;
    EXPECT_EQ(marks[0].position_mm, 0.0);
    EXPECT_EQ(marks[1].position_mm, 50.0);
    EXPECT_EQ(marks[1].foot_px.x, 400.0);
    EXPECT_EQ(marks[1].tip_px.y, 600.0);
    // 3-4-5 triangle: 500 px; two points of half a pixel each add in quadrature.
    EXPECT_NEAR(reference->object_relative_std, std::sqrt(0.5) / 500.0, 1e-12);
}

TEST(TwoPoints, TooCloseAreRefusedAndNonsenseIsMisuse) {
    const auto close = two_points_reference({100, 100}, {110, 100}, 10.0);
    ASSERT_FALSE(close.ok());
    EXPECT_EQ(close.refusal().code, "points-too-close");
    EXPECT_THROW((void)two_points_reference({0, 0}, {100, 0}, 0.0), std::invalid_argument);
    EXPECT_THROW((void)two_points_reference({0, 0}, {100, 0}, -3.0), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
