#include "image/resample.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ridgetally {
namespace {

/// A round spot of Gaussian brightness.
cv::Mat spot(const cv::Size& size, double x0, double y0, double sigma) {
    cv::Mat picture(size, CV_32FC1);
    for (int y = 0; y < size.height; ++y) {
        for (int x = 0; x < size.width; ++x)
            picture.at<float>(y, x) = static_cast<float>(
                255 * std::exp(-(std::pow(x - x0, 2) + std::pow(y - y0, 2)) / (2 * sigma * sigma)));
    }
    return picture;
}

cv::Point2d centroid(const cv::Mat& picture) {
    double sum = 0.0;
    cv::Point2d weighted;
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x) {
            const double value = picture.at<float>(y, x);
            sum += value;
            weighted += value * cv::Point2d(x, y);
        }
    }
    return weighted / sum;
}

TEST(Resample, IdentityChangesNothing) {
    const cv::Mat picture = spot({60, 40}, 22.3, 17.8, 4.0);
    for (const Interpolation interpolation : {Interpolation::bilinear, Interpolation::bicubic}) {
        const cv::Mat same = resample(picture, identity3(), picture.size(), {.interpolation = interpolation});
        EXPECT_LT(cv::norm(picture, same, cv::NORM_INF), 1e-4);
    }
}

TEST(Resample, LinearPicturesAreExactUnderAnAffineMap) {
    cv::Mat ramp(80, 100, CV_32FC1);
    for (int y = 0; y < ramp.rows; ++y) {
        for (int x = 0; x < ramp.cols; ++x) ramp.at<float>(y, x) = static_cast<float>(3 * x - 2 * y);
    }
    const Matrix3 map = {0.5, 0.25, 20, -0.25, 0.5, 30, 0, 0, 1};
    const cv::Mat result = resample(ramp, map, {60, 60});
    for (int y = 0; y < 60; ++y) {
        for (int x = 0; x < 60; ++x) {
            const double u = 0.5 * x + 0.25 * y + 20;
            const double v = -0.25 * x + 0.5 * y + 30;
            // Every position is a multiple of 1/4 px, which 1/32 holds exactly.
            ASSERT_NEAR(result.at<float>(y, x), 3 * u - 2 * v, 1e-3);
        }
    }
}

TEST(Resample, SpotsLandWhereTheHomographySays) {
    const PhotoFromRectified photo_from_rectified{{0.9, 0.1, 15, -0.05, 1.1, 12, 2e-4, -1e-4, 1}};
    const cv::Size size(200, 180);
    for (const PhotoPoint at : {PhotoPoint{60, 50}, PhotoPoint{110, 80}, PhotoPoint{90, 120}}) {
        const cv::Mat photo = spot({200, 180}, at.x, at.y, 3.0);
        // The spot's formula at the exact place of every target pixel.
        cv::Mat exact(size, CV_32FC1);
        for (int y = 0; y < size.height; ++y) {
            for (int x = 0; x < size.width; ++x) {
                const auto p = photo_from_rectified({static_cast<double>(x), static_cast<double>(y)});
                exact.at<float>(y, x) = static_cast<float>(
                    255 * std::exp(-(std::pow(p.x - at.x, 2) + std::pow(p.y - at.y, 2)) / (2 * 3.0 * 3.0)));
            }
        }
        const auto wanted = centroid(exact);
        for (const Interpolation interpolation : {Interpolation::bilinear, Interpolation::bicubic}) {
            const auto got =
                centroid(resample(photo, photo_from_rectified, size, {.interpolation = interpolation}));
            // Positions are rounded to 1/32 px: half of that if all were rounded to the same side.
            EXPECT_NEAR(got.x, wanted.x, 1.0 / 64);
            EXPECT_NEAR(got.y, wanted.y, 1.0 / 64);
        }
    }
}

TEST(Resample, ShrinkingKeepsPlacesAndAverages) {
    // Three times smaller: target (x, y) shows source (3 x + 1, 3 y + 1), the centre of a 3 x 3 block.
    const Matrix3 map = {3, 0, 1, 0, 3, 1, 0, 0, 1};
    const cv::Mat small = resample(spot({180, 150}, 91.0, 70.0, 9.0), map, {60, 50});
    const auto got = centroid(small);
    EXPECT_NEAR(got.x, 30.0, 1.0 / 64);
    EXPECT_NEAR(got.y, 23.0, 1.0 / 64);

    // Lines of one pixel are finer than the target can show: they become their mean, not stripes.
    cv::Mat lines(160, 160, CV_8UC1, cv::Scalar(0));
    for (int x = 0; x < lines.cols; x += 2) lines.col(x) = 200;
    const cv::Mat grey = resample(lines, Matrix3{4, 0, 1.5, 0, 4, 1.5, 0, 0, 1}, {38, 38});
    EXPECT_EQ(cv::norm(grey, cv::Mat(38, 38, CV_8UC1, cv::Scalar(100)), cv::NORM_INF), 0.0);
}

TEST(Resample, OutsideHasTheValueAskedFor) {
    const cv::Mat picture(20, 20, CV_8UC3, cv::Scalar::all(9));
    const cv::Mat result =
        resample(picture, Matrix3{1, 0, -10, 0, 1, -10, 0, 0, 1}, {40, 40}, {.outside = cv::Scalar(1, 2, 3)});
    EXPECT_EQ(result.at<cv::Vec3b>(5, 5), cv::Vec3b(1, 2, 3));
    EXPECT_EQ(result.at<cv::Vec3b>(15, 15), cv::Vec3b(9, 9, 9));
}

TEST(Resample, AHorizonInTheTargetIsNoTrouble) {
    const cv::Mat picture(50, 50, CV_8UC1, cv::Scalar(9));
    const cv::Mat result = resample(picture, Matrix3{1, 0, 0, 0, 1, 0, -0.05, 0, 1}, {50, 50});
    EXPECT_EQ(result.size(), cv::Size(50, 50));
    EXPECT_EQ(result.at<std::uint8_t>(0, 0), 9);
}

TEST(Shrunk, AveragesWholeBlocks) {
    cv::Mat picture(7, 11, CV_8UC1);
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x)
            picture.at<std::uint8_t>(y, x) = static_cast<std::uint8_t>(10 * x + y);
    }
    const cv::Mat small = shrunk(picture, 3);
    ASSERT_EQ(small.size(), cv::Size(3, 2));
    // The mean of a linear picture over a block is its value at the centre.
    EXPECT_EQ(small.at<std::uint8_t>(1, 2), 10 * 7 + 4);
    EXPECT_EQ(shrunk(picture, 1).data, picture.data);
}

TEST(Resample, Misuse) {
    const cv::Mat picture(20, 20, CV_8UC1, cv::Scalar(0));
    EXPECT_THROW((void)resample({}, identity3(), {5, 5}), std::invalid_argument);
    EXPECT_THROW((void)resample(picture, identity3(), {0, 5}), std::invalid_argument);
    EXPECT_THROW((void)shrunk(picture, 0), std::invalid_argument);
    EXPECT_THROW((void)shrunk(picture, 21), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
