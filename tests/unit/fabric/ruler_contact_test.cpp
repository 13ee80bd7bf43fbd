#include "fabric/ruler_contact.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "unit/fabric/drawn_scene.h"

namespace ridgetally {
namespace {

constexpr int width = 400;
constexpr int height = 300;
const cv::Size size(width, height);

TEST(RulerContact, TableBetweenThemKeepsThemApart) {
    const auto fabric = test::mask_of(size, {100, 50, 150, 120});
    const auto ruler = test::mask_of(size, {20, 200, 350, 40});
    EXPECT_EQ(ruler_contact(fabric, ruler), RulerContact::apart);
    EXPECT_EQ(ruler_contact(fabric, cv::Mat::zeros(size, CV_8U)), RulerContact::apart);
}

TEST(RulerContact, ATailThatReachesTheRulerIsNoContact) {
    auto fabric = test::mask_of(size, {100, 50, 150, 120});
    fabric |= test::mask_of(size, {150, 170, 6, 30});
    const auto ruler = test::mask_of(size, {20, 200, 350, 40});
    EXPECT_EQ(ruler_contact(fabric, ruler), RulerContact::apart);
}

TEST(RulerContact, ACornerAtASlantingRulerIsNear) {
    const auto fabric = test::mask_of(size, {100, 50, 150, 150});
    cv::Mat ruler = cv::Mat::zeros(size, CV_8U);
    const std::vector<cv::Point> slanting = {{20, 213}, {380, 184}, {390, 224}, {30, 253}};
    cv::fillConvexPoly(ruler, slanting, cv::Scalar(255));
    EXPECT_EQ(ruler_contact(fabric & ~ruler, ruler), RulerContact::near);
}

TEST(RulerContact, FabricAlongTheRulerTouchesIt) {
    const auto fabric = test::mask_of(size, {100, 50, 150, 150});
    const auto ruler = test::mask_of(size, {20, 200, 350, 40});
    EXPECT_EQ(ruler_contact(fabric, ruler), RulerContact::beside);
}

TEST(RulerContact, FabricOnBothSidesIsOneFabricUnderTheRuler) {
    const auto upper = test::mask_of(size, {100, 50, 150, 100});
    const auto lower = test::mask_of(size, {100, 190, 150, 80});
    const auto ruler = test::mask_of(size, {20, 150, 350, 40});
    EXPECT_TRUE(cut_by_ruler(upper, lower, ruler));
    EXPECT_TRUE(cut_by_ruler(lower, upper, ruler));
    EXPECT_FALSE(cut_by_ruler(upper, lower, cv::Mat::zeros(size, CV_8U)));
}

TEST(RulerContact, AScrapBeyondASlantingRulerDoesNotPutItOnTheFabric) {
    const auto fabric = test::mask_of(size, {100, 50, 150, 149});
    cv::Mat ruler = cv::Mat::zeros(size, CV_8U);
    const std::vector<cv::Point> slanting = {{20, 213}, {380, 184}, {390, 224}, {30, 253}};
    cv::fillConvexPoly(ruler, slanting, cv::Scalar(255));
    const auto scrap = test::mask_of(size, {150, 236, 60, 20}) & ~ruler;
    EXPECT_FALSE(cut_by_ruler(fabric & ~ruler, scrap, ruler));
}

TEST(RulerContact, ASecondSwatchOnTheSameSideStaysAnother) {
    const auto left = test::mask_of(size, {30, 50, 120, 150});
    const auto right = test::mask_of(size, {220, 50, 120, 150});
    const auto ruler = test::mask_of(size, {20, 200, 350, 40});
    EXPECT_FALSE(cut_by_ruler(left, right, ruler));
    EXPECT_EQ(ruler_contact(left, ruler), RulerContact::beside);
}

}  // namespace
}  // namespace ridgetally
