#include "disc/round_curve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/random.h"

namespace ridgetally {
namespace {

std::vector<ObjectPoint> circle(double x, double y, double r, double noise, int n, double turns,
                                unsigned long long seed) {
    Random random(seed);
    std::vector<ObjectPoint> points;
    for (int i = 0; i < n; ++i) {
        const double a = 2.0 * std::numbers::pi * turns * i / n;
        const double d = r + random.normal(0.0, noise);
        points.push_back({x + d * std::cos(a), y + d * std::sin(a)});
    }
    return points;
}

// W. Gander, G. Golub, R. Strebel, BIT 34 (1994): least squares of the orthogonal distances to a circle for
// their six points, centre (4.7398, 2.9835) and radius 4.7142 (from memory). Every point is given twice,
// which changes nothing in the optimum.
TEST(RoundCurve, AgreesWithAPublishedCircle) {
    std::vector<ObjectPoint> points;
    for (int k = 0; k < 2; ++k)
        for (const ObjectPoint& p : {ObjectPoint{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}})
            points.push_back(p);
    const RoundCurve curve = fit_round_curve(points, CurveShape::circle, PointWeights::even);
    EXPECT_NEAR(curve.centre_mm.x, 4.7398, 1e-3);
    EXPECT_NEAR(curve.centre_mm.y, 2.9835, 1e-3);
    EXPECT_NEAR(curve.radius_mm, 4.7142, 1e-3);
}

// Against OpenCV's fitEllipse, which minimises algebraic distances: on a whole circle with small noise both
// have the same limit.
TEST(RoundCurve, AgreesWithALibrarysEllipseOnWholeCircles) {
    for (const unsigned long long seed : {1ULL, 2ULL, 3ULL}) {
        const auto points = circle(40.0, 25.0, 60.0, 0.4, 500, 1.0, seed);
        std::vector<cv::Point2f> library;
        for (const auto& p : points) library.emplace_back(static_cast<float>(p.x), static_cast<float>(p.y));
        const cv::RotatedRect box = cv::fitEllipse(library);
        const RoundCurve curve = fit_round_curve(points, CurveShape::circle);
        EXPECT_NEAR(curve.centre_mm.x, static_cast<double>(box.center.x), 0.05);
        EXPECT_NEAR(curve.centre_mm.y, static_cast<double>(box.center.y), 0.05);
        EXPECT_NEAR(2.0 * curve.radius_mm, 0.5 * static_cast<double>(box.size.width + box.size.height), 0.05);
    }
}

TEST(RoundCurve, OutliersDoNotMoveIt) {
    auto points = circle(0.0, 0.0, 50.0, 0.2, 400, 1.0, 7);
    for (int i = 0; i < 60; ++i) points.push_back({50.0 + i, 2.0});  // a tail
    const RoundCurve curve = fit_round_curve(points, CurveShape::circle);
    EXPECT_NEAR(curve.radius_mm, 50.0, 0.1);
    EXPECT_NEAR(std::hypot(curve.centre_mm.x, curve.centre_mm.y), 0.0, 0.1);
    EXPECT_LT(curve.inlier_part, 0.95);
}

// A coiled tail beside a small crown has nearly as long an edge as the crown.
TEST(RoundCurve, ASmallerCircleBesideItDoesNotMoveIt) {
    auto points = circle(0.0, 0.0, 50.0, 0.2, 400, 1.0, 7);
    for (const auto& p : circle(60.0, 40.0, 25.0, 0.2, 330, 1.0, 8)) points.push_back(p);
    const RoundCurve curve = fit_round_curve(points, CurveShape::circle);
    EXPECT_NEAR(curve.radius_mm, 50.0, 0.1);
    EXPECT_NEAR(std::hypot(curve.centre_mm.x, curve.centre_mm.y), 0.0, 0.1);
}

TEST(RoundCurve, HalfACircleIsEnough) {
    const auto points = circle(10.0, -5.0, 70.0, 0.3, 400, 0.5, 9);
    const RoundCurve curve = fit_round_curve(points, CurveShape::circle);
    // Cramer-Rao for half a circle and 400 points of 0.3 mm: 0.05 mm on the radius; four of those.
    EXPECT_NEAR(curve.radius_mm, 70.0, 0.2);
}

TEST(RoundCurve, AnOvalIsSeen) {
    std::vector<ObjectPoint> points;
    for (int i = 0; i < 360; ++i) {
        const double a = 2.0 * std::numbers::pi * i / 360;
        points.push_back({51.0 * std::cos(a), 49.0 * std::sin(a)});
    }
    const RoundCurve curve = fit_round_curve(points, CurveShape::oval);
    EXPECT_NEAR(curve.radius_at(0.0), 51.0, 0.05);
    EXPECT_NEAR(curve.radius_at(std::numbers::pi / 2), 49.0, 0.05);
    EXPECT_THROW((void)fit_round_curve({{0, 0}}, CurveShape::oval), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
