#include "disc/piece_extent.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "unit/disc/drawn_disc.h"

namespace ridgetally {
namespace {

FabricRegion region_with(const std::vector<cv::Point>& polygon) {
    FabricRegion region;
    region.overview_from_photo = 0.5;
    region.mask = cv::Mat::zeros(400, 500, CV_8U);
    cv::fillPoly(region.mask, std::vector<std::vector<cv::Point>>{polygon}, 255);
    for (const auto& p : polygon)
        region.outline_px.push_back({(p.x + 0.5) / 0.5 - 0.5, (p.y + 0.5) / 0.5 - 0.5});
    return region;
}

/// An overview pixel is 0.5 mm: the size is good to one.
constexpr double px_mm = 0.5;

TEST(PieceExtent, ARectangleHasItsSides) {
    const auto extent = piece_extent(region_with({{100, 100}, {299, 100}, {299, 249}, {100, 249}}),
                                     test::straight_down(4.0), {});
    ASSERT_TRUE(extent.has_value());
    EXPECT_NEAR(extent->width_mm, 100.0, 2 * px_mm);
    EXPECT_NEAR(extent->height_mm, 75.0, 2 * px_mm);
    EXPECT_NEAR(extent->px_mm, px_mm, 1e-6);
}

TEST(PieceExtent, AHatIsAsWideAsItsBrimHalf) {
    // Straight up from the brim for half its height, then a slope to a narrow crown.
    const auto extent =
        piece_extent(region_with({{150, 60}, {250, 60}, {300, 180}, {300, 300}, {100, 300}, {100, 180}}),
                     test::straight_down(4.0), {});
    ASSERT_TRUE(extent.has_value());
    EXPECT_NEAR(extent->width_mm, 100.0, 2 * px_mm);
    EXPECT_NEAR(extent->height_mm, 120.0, 2 * px_mm);
}

TEST(PieceExtent, ATurnedPieceIsSetStraightWhereItsDirectionIsTold) {
    const cv::RotatedRect box(cv::Point2f(250, 200), cv::Size2f(200, 150), 30.0F);
    std::vector<cv::Point2f> corners;
    corners.resize(4);
    box.points(corners.data());
    std::vector<cv::Point> polygon;
    for (const auto& p : corners) polygon.emplace_back(cvRound(p.x), cvRound(p.y));
    const auto extent = piece_extent(region_with(polygon), test::straight_down(4.0), 30.0 * CV_PI / 180.0);
    ASSERT_TRUE(extent.has_value());
    EXPECT_NEAR(extent->width_mm, 100.0, 3 * px_mm);
    EXPECT_NEAR(extent->height_mm, 75.0, 3 * px_mm);
}

TEST(PieceExtent, NothingHasNoSize) {
    FabricRegion region;
    region.mask = cv::Mat::zeros(10, 10, CV_8U);
    EXPECT_FALSE(piece_extent(region, test::straight_down(4.0), {}).has_value());
}

}  // namespace
}  // namespace ridgetally
