#include "image/quality.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/random.h"
#include "image/encode.h"
#include "image/grey.h"
#include "image/normalise.h"
#include "image/photo.h"

namespace ridgetally {
namespace {

/// 1600 x 1200 px over 250 x 187 mm of table: a fabric of 5 x 4 mm stitches, a white ruler with millimetre
/// marks.
constexpr double px_per_mm = 6.4;
const cv::Size frame(1600, 1200);
const cv::Rect fabric(200, 150, 900, 600);
const cv::Rect ruler(150, 850, 1300, 170);

/// Levels 0-1. The texture has a standard deviation of some 15 % of the fabric's brightness.
cv::Mat drawn_scene() {
    cv::Mat picture(frame, CV_32FC1, cv::Scalar(0.45));
    Random random(4);
    for (int y = fabric.y; y < fabric.br().y; ++y) {
        for (int x = fabric.x; x < fabric.br().x; ++x) {
            const double u = 2 * std::numbers::pi * x / (5.0 * px_per_mm);
            const double v = 2 * std::numbers::pi * y / (4.0 * px_per_mm);
            const double stitch = std::cos(u + 1.5 * std::abs(std::sin(v / 2))) * std::abs(std::sin(v / 2));
            picture.at<float>(y, x) = static_cast<float>(0.4 * (1 + 0.3 * stitch + random.normal(0, 0.05)));
        }
    }
    picture(ruler) = 0.95;
    for (int mm = 5; mm < 195; ++mm) {
        const int x = ruler.x + static_cast<int>(mm * px_per_mm);
        const int length = mm % 10 == 0 ? 70 : mm % 5 == 0 ? 50 : 32;
        picture(cv::Rect(x, ruler.y, 2, length)) = 0.1;
    }
    return picture;
}

cv::Mat scene() {
    static const cv::Mat picture = drawn_scene();
    return picture.clone();
}

struct Camera {
    double exposure = 1.0;
    double blur_px = 0.0;
    double noise = 2.0;  ///< standard deviation, levels of 255
};

/// What a phone would save of the scene: blur, light, noise, 8 bits, JPEG.
cv::Mat taken(const Camera& camera) {
    cv::Mat picture = scene();
    if (camera.blur_px > 0.0) cv::GaussianBlur(picture, picture, cv::Size(), camera.blur_px);
    picture *= 255.0 * camera.exposure;
    Random random(8);
    cv::Mat levels(frame, CV_8UC1);
    for (int y = 0; y < frame.height; ++y) {
        for (int x = 0; x < frame.width; ++x)
            levels.at<std::uint8_t>(y, x) =
                cv::saturate_cast<std::uint8_t>(picture.at<float>(y, x) + random.normal(0, camera.noise));
    }
    const auto photo = decode_photo(encode_jpeg(levels, 85), "");
    return photo->grey;
}

std::string verdict(const cv::Mat& grey) {
    const auto quality = check_quality(grey);
    return quality.ok() ? "measure" : quality.refusal().code;
}

/// How much of the fabric's texture is left: correlation with the well-lit, sharp fabric.
double texture_left(const cv::Mat& grey) {
    const cv::Mat a = locally_normalised(taken({})(fabric), {.floor_std = 0.5});
    const cv::Mat b = locally_normalised(grey(fabric), {.floor_std = 0.5});
    return a.dot(b) / std::sqrt(a.dot(a) * b.dot(b));
}

// Sweep of the light (noise 2 / 4 levels): brightest level 62, 30, 20, 11 leave a correlation of
// 0.92 / 0.79, 0.81 / 0.55, 0.69 / 0.42, 0.46 / 0.26.
TEST(Quality, TooDark) {
    for (const double exposure : {1.0, 0.25, 0.12}) {
        const cv::Mat grey = taken({.exposure = exposure});
        // The ruler's face is the brightest part: 0.95 of full scale at exposure 1.
        EXPECT_NEAR(photo_quality(grey).brightest_level, 0.95 * 255 * exposure, 4);
        EXPECT_EQ(verdict(grey), "measure") << exposure;
        EXPECT_GT(texture_left(grey), 0.8) << exposure;
    }
    EXPECT_EQ(verdict(taken({.exposure = 0.04, .noise = 4.0})), "too-dark");
    EXPECT_EQ(verdict(cv::Mat(frame, CV_8UC1, cv::Scalar(0))), "too-dark");
}

// Over-exposed by 2.5, 3 and 4 times: 84, 93 and 98 % burnt, correlation 0.83, 0.60 and 0.13.
TEST(Quality, TooBright) {
    const cv::Mat hard = taken({.exposure = 3.0});
    EXPECT_GT(photo_quality(hard).burnt_share, 0.9);
    EXPECT_EQ(verdict(hard), "measure");
    const cv::Mat hopeless = taken({.exposure = 4.0});
    EXPECT_LT(texture_left(hopeless), 0.2);
    EXPECT_EQ(verdict(hopeless), "too-bright");
}

// Sweep of the blur, per mille of the longer side: true 2, 3, 4, 6, 8, 10, 12, 20
// read 1.4, 2.7, 3.9, 6.0, 7.9, 9.6, 11.2, 14.6 at noise 2 (at noise
// 6: 1.5, 2.7, 3.8, 5.9, 7.6, 9.0, 9.9, 10.4) and leave a correlation of 0.93, 0.91, 0.86, 0.71, 0.33, 0.10,
// 0.05, 0.04 (0.87, 0.80, 0.68, 0.36, 0.15, 0.09, 0.07, 0.07).
TEST(Quality, TooBlurred) {
    for (const double noise : {0.0, 2.0, 6.0}) {
        for (const double blur : {0.0, 0.002, 0.004, 0.008, 0.012, 0.02}) {
            const cv::Mat grey = taken({.blur_px = blur * frame.width, .noise = noise});
            const double read = photo_quality(grey).edge_blur;
            EXPECT_LE(read, std::max(1.1 * blur, 0.002)) << blur << ", noise " << noise;
            EXPECT_EQ(verdict(grey), blur <= 0.004 ? "measure" : "too-blurred")
                << blur << ", noise " << noise;
        }
    }
}

TEST(Quality, WhatIsRefusedAsBlurredHasLostItsTexture) {
    const cv::Mat grey = taken({.blur_px = 0.012 * frame.width});
    EXPECT_EQ(verdict(grey), "too-blurred");
    EXPECT_LT(texture_left(grey), 0.1);
}

TEST(Quality, BlurIsAShareOfTheSideWhateverTheSize) {
    const cv::Mat grey = taken({.blur_px = 0.006 * frame.width});
    cv::Mat larger;
    cv::resize(grey, larger, cv::Size(), 2.0, 2.0, cv::INTER_CUBIC);
    EXPECT_NEAR(photo_quality(larger).edge_blur, photo_quality(grey).edge_blur, 0.0006);
}

TEST(Quality, SharpPartsOfABlurredPhotoAreEnough) {
    cv::Mat grey = taken({.blur_px = 0.012 * frame.width});
    taken({})(fabric).copyTo(grey(fabric));
    EXPECT_EQ(verdict(grey), "measure");
}

TEST(Quality, AnEvenSurfaceHasNothingToMeasure) {
    EXPECT_EQ(verdict(cv::Mat(frame, CV_8UC1, cv::Scalar(128))), "too-blurred");
    EXPECT_THROW((void)photo_quality({}), std::invalid_argument);
    EXPECT_THROW((void)photo_quality(cv::Mat(9, 9, CV_8UC3)), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
