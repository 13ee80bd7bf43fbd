#include "disc/disc_outline.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "unit/disc/drawn_disc.h"

namespace ridgetally {
namespace {

constexpr double px_per_mm = 4.0;

Outcome<DiscOutline> traced(const test::DrawnDisc& disc, const DiscOutlineOptions& options = {}) {
    return trace_disc(test::drawn(disc), test::region_of(disc), test::straight_down(px_per_mm), options);
}

/// A quarter of a pixel all round: what a smooth edge leaves in the mean over 1440 places.
constexpr double quarter_px = 2.0 * 0.25 / px_per_mm;

TEST(DiscOutline, AnEvenDiscIsMeasuredToAFractionOfAPixel) {
    const auto outline = traced({});
    ASSERT_TRUE(outline.ok());
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * 240.0 / px_per_mm, quarter_px);
    EXPECT_NEAR(outline->centre_mm.x, 450.0 / px_per_mm, 0.05);
    EXPECT_NEAR(outline->centre_mm.y, 350.0 / px_per_mm, 0.05);
    EXPECT_EQ(outline->part_of(RimPlace::hidden), 0.0);
}

TEST(DiscOutline, ScallopsCountByTheirArea) {
    test::DrawnDisc disc;
    disc.scallop_px = 6.0;
    const auto outline = traced(disc);
    ASSERT_TRUE(outline.ok());
    // Mean of (R + a cos)^2 is R^2 + a^2 / 2.
    const double radius_px = std::sqrt(240.0 * 240.0 + 0.5 * 6.0 * 6.0);
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * radius_px / px_per_mm, quarter_px);
}

// Diameters through the centre lie on either side of the circle of the same area only where no scallop adds
// to them; the root of the mean square radius stays what it was.
TEST(DiscOutline, EvenedOutRadiiHaveNoScallopsButTheSameArea) {
    DiscOutline outline;
    for (int i = 0; i < 1440; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / 1440;
        outline.radius_mm.push_back(80.0 + 1.0 * std::cos(2.0 * angle) + 2.0 * std::cos(36.0 * angle));
    }
    const DiscOutline even = evened(outline);
    EXPECT_NEAR(even.area_diameter_mm(), outline.area_diameter_mm(), 1e-9);
    for (int i = 0; i < 1440; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / 1440;
        // A mean over 30 degrees keeps sin(30 deg) / (pi / 6) = 0.955 of an oval and none of 36 scallops; the
        // mean square adds half the scallops' variance over the radius, 0.0125 mm.
        EXPECT_NEAR(even.radius_at(angle), 80.0125 + 0.955 * std::cos(2.0 * angle), 0.02);
    }
}

TEST(DiscOutline, TailAndLoopAreNotTheEdge) {
    test::DrawnDisc disc;
    disc.tail_px = 120.0;
    disc.loop_px = 22.0;
    const auto outline = traced(disc);
    ASSERT_TRUE(outline.ok());
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * 240.0 / px_per_mm, 2.0 * quarter_px);
    EXPECT_GT(outline->part_of(RimPlace::loose), 0.01);
}

TEST(DiscOutline, AShadowIsNotTheDisc) {
    test::DrawnDisc disc;
    disc.shadow_px = 30.0;
    const auto outline = traced(disc);
    ASSERT_TRUE(outline.ok());
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * 240.0 / px_per_mm, 2.0 * quarter_px);
}

// Tall stitches show the shaded table between their posts: its colour is the disc's too, but not the yarn.
TEST(DiscOutline, AShadowThatIsSeenThroughTheStitchesTooIsNotTheDisc) {
    test::DrawnDisc disc;
    disc.yarn = {60, 90, 45};
    disc.shadow_px = 30.0;
    disc.contact_px = 5.0;
    disc.holes_px = 40.0;
    const auto outline = traced(disc);
    ASSERT_TRUE(outline.ok());
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * 240.0 / px_per_mm, 2.0 * quarter_px);
}

TEST(DiscOutline, ATailThatLiesAlongTheEdgeIsNotTheDisc) {
    test::DrawnDisc disc;
    disc.arc_tail_px = 9.0;
    const auto outline = traced(disc);
    ASSERT_TRUE(outline.ok());
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * 240.0 / px_per_mm, 2.0 * quarter_px);
}

TEST(DiscOutline, APartOutsideTheFrameIsFilledInAndSaid) {
    test::DrawnDisc disc;
    disc.centre = {730.0, 350.0};  // the frame ends 170 px to the right of it
    const auto outline = traced(disc);
    ASSERT_TRUE(outline.ok());
    const double hidden = 2.0 * std::acos(170.0 / 240.0) / (2.0 * std::numbers::pi);
    EXPECT_NEAR(outline->part_of(RimPlace::hidden), hidden, 0.02);
    EXPECT_NEAR(outline->area_diameter_mm(), 2.0 * 240.0 / px_per_mm, 4.0 * quarter_px);
}

TEST(DiscOutline, ADiscMostlyOutsideTheFrameIsRefused) {
    test::DrawnDisc disc;
    disc.centre = {1000.0, 350.0};
    const auto outline = traced(disc);
    ASSERT_FALSE(outline.ok());
    EXPECT_EQ(outline.refusal().code, "too-little-rim");
}

TEST(DiscOutline, ASquareIsRefused) {
    test::DrawnDisc disc;
    Photo photo = test::drawn(disc);
    FabricRegion region = test::region_of(disc);
    photo.colour.bgr.setTo(cv::Scalar(205, 210, 212));
    cv::rectangle(photo.colour.bgr, {250, 150}, {650, 550}, cv::Scalar(90, 60, 170), cv::FILLED);
    region.mask.setTo(0);
    cv::rectangle(region.mask, {125, 75}, {325, 275}, 255, cv::FILLED);
    const auto outline = trace_disc(photo, region, test::straight_down(px_per_mm), {});
    ASSERT_FALSE(outline.ok());
    EXPECT_EQ(outline.refusal().code, "not-round");
}

TEST(DiscOutline, RadiiOfAnOvalFollowItsAxes) {
    DiscOutline outline;
    for (int i = 0; i < 720; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / 720;
        outline.radius_mm.push_back(50.0 * 40.0 / std::hypot(40.0 * std::cos(angle), 50.0 * std::sin(angle)));
        outline.places.push_back(RimPlace::edge);
    }
    EXPECT_NEAR(outline.radius_at(0.0), 50.0, 0.005);
    EXPECT_NEAR(outline.radius_at(std::numbers::pi / 2), 40.0, 0.005);
    // The area of an ellipse is pi a b.
    EXPECT_NEAR(outline.area_diameter_mm(), 2.0 * std::sqrt(50.0 * 40.0), 0.01);
}

}  // namespace
}  // namespace ridgetally
