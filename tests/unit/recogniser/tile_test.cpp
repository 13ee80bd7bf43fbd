#include "recogniser/tile.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

cv::Point2d mapped(const cv::Matx23d& m, double x, double y) {
    return {m(0, 0) * x + m(0, 1) * y + m(0, 2), m(1, 0) * x + m(1, 1) * y + m(1, 2)};
}

TEST(TileFrame, MiddleAndDirection) {
    const TileFrame frame{{120.0, 80.0}, std::numbers::pi / 2, 0.5, 64};
    const cv::Matx23d m = frame.picture_from_tile();
    EXPECT_NEAR(mapped(m, 31.5, 31.5).x, 120.0, 1e-9);
    EXPECT_NEAR(mapped(m, 31.5, 31.5).y, 80.0, 1e-9);
    // One tile pixel to the right is two picture pixels down: a quarter turn clockwise, at half the scale.
    EXPECT_NEAR(mapped(m, 32.5, 31.5).x, 120.0, 1e-9);
    EXPECT_NEAR(mapped(m, 32.5, 31.5).y, 82.0, 1e-9);
}

TEST(NormaliseLocally, IsTheFormulaOfItsDescription) {
    const cv::Mat x = 0.1 * formula_tile(64) + 0.5;
    const cv::Mat y = normalise_locally(x);
    const auto reflected = [](int i) { return i < 0 ? -i : (i > 63 ? 126 - i : i); };
    for (const cv::Point at : {cv::Point(32, 32), cv::Point(3, 60)}) {
        double sum = 0.0;
        for (int dy = -24; dy <= 24; ++dy) {
            for (int dx = -24; dx <= 24; ++dx) sum += x.at<float>(reflected(at.y + dy), reflected(at.x + dx));
        }
        const double mean = sum / (49.0 * 49.0);
        const double lifted = x.at<float>(at) - mean;
        EXPECT_EQ(lifted > 0, y.at<float>(at) > 0);
        EXPECT_LE(std::abs(y.at<float>(at)), 3.0);
    }
}

TEST(NormaliseLocally, BrightnessAndContrastDoNotMatter) {
    const cv::Mat x = 0.1 * formula_tile(64) + 0.5;
    const cv::Mat dim = 0.5 * x + 0.1;
    // The floor under the contrast (0.008 against 0.05 and more) is all that may show.
    EXPECT_LT(cv::norm(normalise_locally(x), normalise_locally(dim), cv::NORM_INF), 0.05);
}

TEST(CutTile, SeesOnlyWhatMaskAndPictureReach) {
    const cv::Mat grey = cv::Mat::ones(100, 100, CV_32FC1) * 0.5;
    cv::Mat mask = cv::Mat::zeros(100, 100, CV_8UC1);
    mask.colRange(0, 50).setTo(255);
    const Tile tile = cut_tile(grey, mask, {{49.5, 49.5}, 0.0, 1.0, 64});
    EXPECT_EQ(tile.seen.at<float>(16, 4), 1.0F);
    EXPECT_EQ(tile.seen.at<float>(16, 28), 0.0F);
    const Tile corner = cut_tile(grey, {}, {{0.0, 0.0}, 0.0, 1.0, 64});
    EXPECT_EQ(corner.seen.at<float>(4, 4), 0.0F);
    EXPECT_EQ(corner.seen.at<float>(28, 28), 1.0F);
}

TEST(UnitGrey, ScalesAndConverts) {
    EXPECT_FLOAT_EQ(unit_grey(cv::Mat(2, 2, CV_8UC1, cv::Scalar(255))).at<float>(0, 0), 1.0F);
    EXPECT_FLOAT_EQ(unit_grey(cv::Mat(2, 2, CV_32FC1, cv::Scalar(51.0))).at<float>(1, 1), 0.2F);
    EXPECT_NEAR(unit_grey(cv::Mat(2, 2, CV_8UC3, cv::Scalar(90, 90, 90))).at<float>(0, 1), 90.0 / 255.0,
                1e-6);
    EXPECT_THROW((void)unit_grey(cv::Mat::zeros(2, 2, CV_64FC1)), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally::test
