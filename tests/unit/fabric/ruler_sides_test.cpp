#include "fabric/ruler_sides.h"

#include <gtest/gtest.h>

#include "unit/fabric/drawn_scene.h"

namespace ridgetally {
namespace {

const cv::Size size(400, 300);

/// A fabric of one colour on a grey table, and a ruler across it.
struct Scene {
    cv::Mat bgr{size, CV_8UC3, cv::Scalar(120, 120, 120)};
    cv::Mat ruler = test::mask_of(size, {20, 150, 350, 40});
    cv::Mat upper = test::mask_of(size, {100, 50, 150, 100});
    cv::Mat lower = test::mask_of(size, {100, 190, 150, 80});

    Scene() {
        bgr.setTo(cv::Scalar(60, 90, 200), upper);
        bgr.setTo(cv::Scalar(56, 84, 190), lower);  // further from the lamp
    }
};

TEST(RulerSides, BothSidesOfOneFabricAreJoined) {
    const Scene scene;
    const cv::Mat label = test::mask_of(size, {300, 60, 60, 40});
    const auto sides = sides_of(scene.bgr, {scene.upper, scene.lower, label}, scene.ruler);
    EXPECT_EQ(cv::countNonZero(sides.all), 150 * 180);
    EXPECT_EQ(sides.others.size(), 1U);
}

TEST(RulerSides, AnotherColourIsAnotherFabric) {
    Scene scene;
    scene.bgr.setTo(cv::Scalar(200, 90, 60), scene.lower);
    EXPECT_FALSE(one_fabric(scene.bgr, scene.upper, scene.lower, scene.ruler));
    const auto sides = sides_of(scene.bgr, {scene.upper, scene.lower}, scene.ruler);
    EXPECT_EQ(cv::countNonZero(sides.all), 150 * 100);
    EXPECT_EQ(sides.others.size(), 1U);
}

TEST(RulerSides, WhatTheFrameCutsOnBothSidesMayBeTheTable) {
    const Scene scene;
    const cv::Mat above = test::mask_of(size, {0, 0, 400, 150});
    const cv::Mat below = test::mask_of(size, {0, 190, 400, 110});
    const cv::Mat plain(size, CV_8UC3, cv::Scalar(120, 120, 120));
    EXPECT_EQ(cv::countNonZero(sides_of(plain, {above, below}, scene.ruler).all), 400 * 150);
    const cv::Mat inside = test::mask_of(size, {100, 190, 150, 80});
    EXPECT_EQ(cv::countNonZero(sides_of(plain, {above, inside}, scene.ruler).all), 400 * 150 + 150 * 80);
}

}  // namespace
}  // namespace ridgetally
