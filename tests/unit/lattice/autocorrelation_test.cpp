#include "lattice/autocorrelation.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/random.h"

namespace ridgetally {
namespace {

/// The definition, pair by pair.
double direct(const cv::Mat& picture, const cv::Mat& mask, int dx, int dy) {
    double sum = 0.0;
    int pairs = 0;
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x) {
            const int u = x + dx;
            const int v = y + dy;
            if (u < 0 || v < 0 || u >= picture.cols || v >= picture.rows) continue;
            if (mask.at<uchar>(y, x) == 0 || mask.at<uchar>(v, u) == 0) continue;
            sum += picture.at<float>(y, x) * picture.at<float>(v, u);
            ++pairs;
        }
    }
    return sum / pairs;
}

TEST(Autocorrelation, EqualsTheDefinitionUnderAMask) {
    Random random(3);
    cv::Mat picture(40, 50, CV_32F);
    cv::Mat mask(40, 50, CV_8U, cv::Scalar(255));
    mask(cv::Rect(0, 0, 12, 9)).setTo(0);
    for (auto it = picture.begin<float>(); it != picture.end<float>(); ++it)
        *it = static_cast<float>(random.normal(0, 1));
    picture.setTo(0, mask == 0);
    const auto result = autocorrelation({picture}, mask, 8);
    const double zero = direct(picture, mask, 0, 0);
    for (const auto& [dx, dy] : {std::pair{0, 0}, {3, 0}, {0, -5}, {-7, 4}, {8, 8}}) {
        EXPECT_NEAR(result.at(dx, dy), direct(picture, mask, dx, dy) / zero, 1e-4) << dx << ", " << dy;
    }
}

TEST(Autocorrelation, EveryLagOfAnEvenRegionIsOne) {
    cv::Mat mask(410, 530, CV_8U, cv::Scalar(255));
    mask(cv::Rect(0, 0, 123, 97)).setTo(0);
    mask(cv::Rect(301, 222, 61, 43)).setTo(0);
    mask(cv::Rect(530 - 37, 0, 37, 410)).setTo(0);
    cv::Mat even(mask.size(), CV_32F, cv::Scalar(0));
    even.setTo(1, mask);
    const auto result = autocorrelation({even}, mask, 250);
    // The pairs are counted on blocks of four pixels: off by the roundness of the count over four lags, which
    // stays far below the 1 % that two readings differ by in score.
    for (double dy = -240.0; dy <= 240.0; dy += 16.0)
        for (double dx = -250.0; dx <= 250.0; dx += 10.0)
            EXPECT_NEAR(result.at(dx, dy), 1.0, 0.005) << dx << ", " << dy;
}

TEST(Autocorrelation, CosineComesBackAsCosine) {
    cv::Mat picture(96, 240, CV_32F);
    const double period = 16.0;
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x)
            picture.at<float>(y, x) = static_cast<float>(std::cos(6.283185307 * x / period));
    }
    const auto result = autocorrelation({picture}, cv::Mat(picture.size(), CV_8U, cv::Scalar(255)), 40);
    for (double lag = 0.0; lag < 39.0; lag += 0.5) {
        // Bilinear between whole lags: the sag of a cosine over half a pixel, (pi / period)^2 / 2, and the
        // window's end.
        EXPECT_NEAR(result.at(lag, 0.0), std::cos(6.283185307 * lag / period), 0.05);
    }
}

TEST(Autocorrelation, BeyondTheLargestLagThereIsNothing) {
    const cv::Mat picture(20, 20, CV_32F, cv::Scalar(1));
    const auto result = autocorrelation({picture}, cv::Mat(20, 20, CV_8U, cv::Scalar(255)), 5);
    EXPECT_EQ(result.at(6.0, 0.0), 0.0F);
    EXPECT_THROW((void)autocorrelation({}, cv::Mat(20, 20, CV_8U), 5), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
