#include "fabric/whole_ruler.h"

#include <gtest/gtest.h>

#include "unit/fabric/drawn_scene.h"

namespace ridgetally {
namespace {

double overlap(const cv::Mat& a, const cv::Mat& b) {
    const cv::Mat both = a & b;
    const cv::Mat either = a | b;
    return static_cast<double>(cv::countNonZero(both)) / cv::countNonZero(either);
}

// The reader follows the marks of one edge; the other half of the body must not pass for fabric.
TEST(WholeRuler, GrowsFromTheMarkedHalfToTheWholeBody) {
    test::DrawnScene scene;
    scene.size_px = {480, 360};
    scene.fabric = {150, 40, 160, 150};
    scene.ruler = {20, 230, 440, 60};
    const Photo photo = test::drawn(scene);
    const auto whole = whole_ruler(photo.colour.bgr, test::mask_of(scene.size_px, {20, 230, 440, 32}));
    EXPECT_GT(overlap(whole, test::mask_of(scene.size_px, scene.ruler)), 0.95);
}

TEST(WholeRuler, DoesNotGrowIntoATableOfItsColour) {
    test::DrawnScene scene;
    scene.size_px = {480, 360};
    scene.fabric = {150, 40, 160, 150};
    scene.table_bgr = {235, 235, 235};
    scene.ruler = {20, 230, 440, 60};
    const auto found = test::mask_of(scene.size_px, scene.ruler);
    EXPECT_GT(overlap(whole_ruler(test::drawn(scene).colour.bgr, found), found), 0.95);
}

// All of the fabric lies near the ruler, and the found part shows a little of it.
TEST(WholeRuler, DoesNotGrowIntoFabricThatItLiesOn) {
    test::DrawnScene scene;
    scene.size_px = {480, 360};
    scene.fabric = {150, 190, 160, 110};
    scene.ruler = {20, 230, 440, 60};
    const auto whole =
        whole_ruler(test::drawn(scene).colour.bgr, test::mask_of(scene.size_px, {20, 229, 440, 33}));
    EXPECT_GT(overlap(whole, test::mask_of(scene.size_px, scene.ruler)), 0.93);
}

TEST(WholeRuler, DoesNotGrowIntoStripesOfItsColour) {
    test::DrawnScene scene;
    scene.size_px = {480, 360};
    scene.fabric = {150, 180, 160, 160};
    scene.ruler = {20, 230, 440, 60};
    cv::Mat bgr = test::drawn(scene).colour.bgr.clone();
    const cv::Scalar white = cv::mean(bgr(scene.ruler));
    for (int x = 160; x < 300; x += 40) bgr(cv::Rect(x, 180, 20, 160)).setTo(white);
    const auto whole = whole_ruler(bgr, test::mask_of(scene.size_px, {20, 230, 440, 32}));
    EXPECT_GT(overlap(whole, test::mask_of(scene.size_px, scene.ruler)), 0.93);
}

TEST(WholeRuler, OfNothingIsNothing) {
    const cv::Mat none = cv::Mat::zeros(100, 100, CV_8U);
    EXPECT_EQ(cv::countNonZero(whole_ruler(cv::Mat(100, 100, CV_8UC3, cv::Scalar(9, 9, 9)), none)), 0);
}

}  // namespace
}  // namespace ridgetally
