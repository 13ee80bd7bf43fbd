#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "fabric/fabric_region.h"
#include "unit/fabric/drawn_scene.h"

namespace ridgetally {
namespace {

Outcome<FabricRegion> found(const test::DrawnScene& scene) {
    const Photo photo = test::drawn(scene);
    FindFabricOptions options;
    if (!scene.ruler.empty()) options.keep_out_px = {test::corners_of(scene.ruler)};
    return find_fabric(photo, options);
}

/// Part of the union of outline and rectangle that both cover.
double agreement(const FabricRegion& region, const test::DrawnScene& scene) {
    std::vector<cv::Point> outline;
    for (const auto& p : region.outline_px)
        outline.emplace_back(static_cast<int>(std::lround(p.x)), static_cast<int>(std::lround(p.y)));
    cv::Mat mask = cv::Mat::zeros(scene.size_px, CV_8U);
    cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{outline}, 255);
    const cv::Mat truth = test::mask_of(scene.size_px, scene.fabric);
    const cv::Mat both = mask & truth;
    const cv::Mat either = mask | truth;
    return static_cast<double>(cv::countNonZero(both)) / cv::countNonZero(either);
}

// Half an overview pixel (1.25 px of this photo) all round is 1 % of the area.
TEST(FindFabric, OutlinesTheFabricToAPixelOfTheOverview) {
    const test::DrawnScene scene;
    const auto region = found(scene);
    ASSERT_TRUE(region) << region.refusal().message;
    EXPECT_GT(agreement(*region, scene), 0.96);
    EXPECT_FALSE(region->cut_by_frame);
    EXPECT_TRUE(region->others.empty());
    EXPECT_GT(region->solidity, 0.97);
    ASSERT_TRUE(region->edge_direction_deg);
    EXPECT_NEAR(std::remainder(*region->edge_direction_deg, 90.0), 0.0, 2.0);
}

// On a table as busy as the fabric only colour tells where it ends.
TEST(FindFabric, FindsFabricOnAGrainyTable) {
    test::DrawnScene scene;
    scene.table_grain = 12.0;
    const auto region = found(scene);
    ASSERT_TRUE(region) << region.refusal().message;
    EXPECT_GT(agreement(*region, scene), 0.93);
}

// Where light burns the table out there is no noise either: that is no reason to take the rest for fabric.
TEST(FindFabric, FindsFabricOnATableHalfBurntOut) {
    test::DrawnScene scene;
    scene.table_bgr = {226, 228, 230};
    scene.fabric_bgr = {175, 200, 215};
    scene.burnt_out = {0, 640, 1200, 260};
    const auto region = found(scene);
    ASSERT_TRUE(region) << region.refusal().message;
    EXPECT_GT(agreement(*region, scene), 0.95);
}

// A tail that lies in a loop encloses table, which is no fabric. The loop's yarn may remain where it meets
// the corner; with its table the piece filled 0.79 to 0.91 of its hull, less than a swatch must.
TEST(FindFabric, LeavesOutTheTableInALoopOfTheTail) {
    constexpr double least_of_a_swatch = 0.905;  // swatch_reading.cpp
    for (const cv::Point& past_corner : {cv::Point(-60, -60), cv::Point(-30, -100), cv::Point(0, -30)}) {
        for (const cv::Size& size : {cv::Size(200, 140), cv::Size(280, 150), cv::Size(150, 200)}) {
            test::DrawnScene scene;
            const cv::Point corner(scene.fabric.br().x, scene.fabric.y);
            scene.tail_loop = {corner + past_corner, size};
            const auto region = found(scene);
            ASSERT_TRUE(region) << region.refusal().message;
            EXPECT_GT(region->solidity, least_of_a_swatch) << past_corner << size;
            EXPECT_GT(agreement(*region, scene), 0.95) << past_corner << size;
        }
    }
}

TEST(FindFabric, KeepsTheRulerOut) {
    test::DrawnScene scene;
    scene.ruler = {40, 640, 1100, 90};
    const auto region = found(scene);
    ASSERT_TRUE(region) << region.refusal().message;
    EXPECT_GT(agreement(*region, scene), 0.95);
    EXPECT_EQ(region->ruler_contact, RulerContact::apart);
}

TEST(FindFabric, NoticesARulerOnTheFabric) {
    test::DrawnScene scene;
    scene.ruler = {40, 380, 1100, 60};
    const auto region = found(scene);
    ASSERT_TRUE(region) << region.refusal().message;
    EXPECT_EQ(region->ruler_contact, RulerContact::across);
    EXPECT_TRUE(region->others.empty());
    // Its outline goes on under the ruler, its mask does not: both sides of it are measured.
    EXPECT_GT(agreement(*region, scene), 0.95);
    const auto shown = [&](int x, int y) {
        return region->mask.at<uchar>(cvRound(y * region->overview_from_photo),
                                      cvRound(x * region->overview_from_photo)) != 0;
    };
    EXPECT_TRUE(shown(560, 300));
    EXPECT_FALSE(shown(560, 410));
    EXPECT_TRUE(shown(560, 520));
}

TEST(FindFabric, SaysWhenTheFrameCutsIt) {
    test::DrawnScene scene;
    scene.fabric = {0, 200, 500, 400};
    const auto region = found(scene);
    ASSERT_TRUE(region) << region.refusal().message;
    EXPECT_TRUE(region->cut_by_frame);
}

TEST(FindFabric, RefusesAnEvenTable) {
    test::DrawnScene scene;
    scene.fabric = {};
    scene.table_grain = 0.0;
    const auto region = found(scene);
    ASSERT_FALSE(region);
    EXPECT_EQ(region.refusal().code, "no-fabric");
}

TEST(FabricInside, RefusesAnAreaOutsideThePhoto) {
    const Photo photo = test::drawn({});
    const auto region = fabric_inside(photo, test::corners_of({5000, 5000, 100, 100}));
    ASSERT_FALSE(region);
    EXPECT_EQ(region.refusal().code, "area-outside");
}

/// A region that is twice what it should be, and a picture of one colour.
struct TooLarge {
    FabricRegion region;
    ColourView colours{cv::Mat(360, 480, CV_8UC3, cv::Scalar(90, 90, 90)), 0.5};
    SeenFabric seen{cv::Mat::zeros(360, 480, CV_8U), cv::Mat(360, 480, CV_8U, cv::Scalar(255))};
};

TooLarge too_large() {
    TooLarge scene;
    FabricRegion& region = scene.region;
    region.mask = cv::Mat::zeros(360, 480, CV_8U);
    region.mask(cv::Rect(0, 60, 480, 300)).setTo(255);
    region.overview_from_photo = 0.5;
    region.cut_by_frame = true;
    region.ruler_contact = RulerContact::beside;
    return scene;
}

// The ruler along the rest of its rim no longer touches it, nor does the frame cut it.
TEST(RedrawnRegion, IsWhatWasSeenWhereColoursTellNothing) {
    TooLarge scene = too_large();
    scene.seen.fabric(cv::Rect(150, 120, 160, 140)).setTo(255);
    scene.seen.fabric(cv::Rect(310, 200, 100, 6)).setTo(255);  // a tail
    const auto part = redrawn(scene.region, scene.colours, scene.seen);
    ASSERT_TRUE(part);
    EXPECT_NEAR(cv::countNonZero(part->mask), 160 * 140, 0.1 * 160 * 140);
    EXPECT_FALSE(part->cut_by_frame);
    EXPECT_EQ(part->ruler_contact, RulerContact::apart);
    EXPECT_GT(part->solidity, 0.97);
    for (const auto& p : part->outline_px) {
        EXPECT_GT(p.x, 2.0 * 140);
        EXPECT_LT(p.x, 2.0 * 330);
    }
    scene.seen.fabric.setTo(0);
    EXPECT_FALSE(redrawn(scene.region, scene.colours, scene.seen));
}

// Nobody looked at the right third of it: its colour says that it belongs to the fabric.
TEST(RedrawnRegion, GoesOnWhereItsColoursDo) {
    TooLarge scene = too_large();
    const cv::Rect fabric(120, 110, 240, 180);
    scene.colours.bgr(fabric).setTo(cv::Scalar(60, 50, 160));
    scene.seen.fabric(cv::Rect(124, 114, 160, 172)).setTo(255);
    scene.seen.looked_at(cv::Rect(284, 0, 196, 360)).setTo(0);
    const auto part = redrawn(scene.region, scene.colours, scene.seen);
    ASSERT_TRUE(part);
    cv::Mat truth = cv::Mat::zeros(part->mask.size(), CV_8U);
    truth(fabric).setTo(255);
    EXPECT_LT(cv::countNonZero(part->mask ^ truth), 0.03 * fabric.area());
}

TEST(RedrawnRegion, IsCutWhereItReachesTheFrameOrTheRuler) {
    TooLarge scene = too_large();
    scene.seen.fabric(cv::Rect(0, 60, 160, 140)).setTo(255);
    const auto part = redrawn(scene.region, scene.colours, scene.seen);
    ASSERT_TRUE(part);
    EXPECT_TRUE(part->cut_by_frame);
    EXPECT_EQ(part->ruler_contact, RulerContact::beside);
}

}  // namespace
}  // namespace ridgetally
