#include "image/normalise.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/random.h"

namespace ridgetally {
namespace {

cv::Mat random_picture(const cv::Size& size) {
    Random random(21);
    cv::Mat picture(size, CV_8UC1);
    for (int y = 0; y < size.height; ++y) {
        for (int x = 0; x < size.width; ++x) {
            const double level =
                120 + 60 * std::sin(x * 0.03) + 30 * std::sin(y * 0.6) + random.normal(0, 10);
            picture.at<std::uint8_t>(y, x) = cv::saturate_cast<std::uint8_t>(level);
        }
    }
    return picture;
}

/// The definition: Gaussian weights over counted pixels, in double precision (Knutsson and Westin, 1993).
double by_definition(const cv::Mat& grey, const cv::Mat& mask, const cv::Point& at, double sigma,
                     double floor_std) {
    double weight = 0.0;
    double sum = 0.0;
    double squares = 0.0;
    for (int y = 0; y < grey.rows; ++y) {
        for (int x = 0; x < grey.cols; ++x) {
            if (!mask.empty() && mask.at<std::uint8_t>(y, x) == 0) continue;
            const double w = std::exp(-(std::pow(x - at.x, 2) + std::pow(y - at.y, 2)) / (2 * sigma * sigma));
            const double value = grey.at<std::uint8_t>(y, x);
            weight += w;
            sum += w * value;
            squares += w * value * value;
        }
    }
    const double mean = sum / weight;
    return (grey.at<std::uint8_t>(at) - mean) /
           std::sqrt(squares / weight - mean * mean + floor_std * floor_std);
}

TEST(Normalise, AgreesWithItsDefinition) {
    const cv::Mat grey = random_picture({150, 110});
    cv::Mat mask(grey.size(), CV_8UC1, cv::Scalar(0));
    mask(cv::Rect(20, 15, 90, 70)) = 255;
    for (const double sigma : {2.0, 5.0, 16.0}) {
        for (const cv::Mat& counted : {cv::Mat(), mask}) {
            const cv::Mat result = locally_normalised(grey, {.sigma_px = sigma, .floor_std = 2.0}, counted);
            ASSERT_EQ(result.type(), CV_32FC1);
            for (const cv::Point at :
                 {cv::Point(20, 15), cv::Point(60, 50), cv::Point(109, 84), cv::Point(77, 33)}) {
                // Blocks of half a sigma and linear interpolation: a hundredth of the window's own deviation
                // in the mean, a few per cent in the deviation, at values up to 3.
                EXPECT_NEAR(result.at<float>(at), by_definition(grey, counted, at, sigma, 2.0), 0.08)
                    << "sigma " << sigma << " at " << at << (counted.empty() ? "" : " masked");
            }
        }
    }
}

TEST(Normalise, GainAndOffsetOfTheLightDoNotCount) {
    const cv::Mat grey = random_picture({120, 90});
    cv::Mat plain;
    cv::Mat other;
    grey.convertTo(plain, CV_32F);
    plain.convertTo(other, CV_32F, 0.3, 1000.0);
    const NormaliseOptions options{.sigma_px = 6.0, .floor_std = 0.0};
    const cv::Mat difference = locally_normalised(plain, options) - locally_normalised(other, options);
    EXPECT_LT(cv::norm(difference, cv::NORM_INF), 1e-3);
}

TEST(Normalise, EightBitAndFloatPicturesGiveTheSame) {
    const cv::Mat grey = random_picture({70, 50});
    cv::Mat as_float;
    grey.convertTo(as_float, CV_32F);
    EXPECT_LT(cv::norm(locally_normalised(grey), locally_normalised(as_float), cv::NORM_INF), 1e-5);
}

TEST(Normalise, WhatTheMaskHidesHasNoInfluence) {
    const cv::Mat grey = random_picture({120, 90});
    cv::Mat mask(grey.size(), CV_8UC1, cv::Scalar(0));
    mask(cv::Rect(0, 0, 60, 90)) = 1;
    cv::Mat changed = grey.clone();
    changed.colRange(60, 120) = 255;
    // The global mean is taken over the mask too, so that the two agree to the last bit.
    const cv::Mat a = locally_normalised(grey, {}, mask);
    const cv::Mat b = locally_normalised(changed, {}, mask);
    EXPECT_EQ(cv::norm(a, b, cv::NORM_INF), 0.0);
    EXPECT_EQ(cv::norm(a.colRange(60, 120), cv::NORM_INF), 0.0);
    EXPECT_GT(cv::norm(a.colRange(0, 60), cv::NORM_INF), 1.0);
}

TEST(Normalise, FlatPicturesStayFlat) {
    const cv::Mat flat(80, 80, CV_8UC1, cv::Scalar(77));
    EXPECT_LT(cv::norm(locally_normalised(flat), cv::NORM_INF), 1e-3);
    EXPECT_LT(cv::norm(locally_normalised(flat, {.floor_std = 0.0}), cv::NORM_INF), 1e-3);
    const cv::Mat nothing(80, 80, CV_8UC1, cv::Scalar(0));
    EXPECT_EQ(cv::norm(locally_normalised(flat, {}, nothing), cv::NORM_INF), 0.0);
}

TEST(Normalise, Misuse) {
    const cv::Mat grey(10, 10, CV_8UC1, cv::Scalar(1));
    EXPECT_THROW((void)locally_normalised({}), std::invalid_argument);
    EXPECT_THROW((void)locally_normalised(grey, {.sigma_px = 0.0}), std::invalid_argument);
    EXPECT_THROW((void)locally_normalised(grey, {}, cv::Mat(9, 10, CV_8UC1)), std::invalid_argument);
    EXPECT_THROW((void)locally_normalised(cv::Mat(10, 10, CV_8UC3)), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
