#include <gtest/gtest.h>

#include "png_files.h"

namespace ridgetally {
namespace {

using namespace files;

cv::Mat decoded(const Bytes& file) {
    const auto photo = decode_photo(file, "", any_size());
    if (!photo) {
        ADD_FAILURE() << photo.refusal().message;
        return {};
    }
    EXPECT_EQ(photo->colour.bgr.type(), CV_8UC3);
    return photo->colour.bgr;
}

void expect_same(const cv::Mat& got, const cv::Mat& wanted) {
    ASSERT_EQ(got.size(), wanted.size());
    EXPECT_EQ(cv::norm(got, wanted, cv::NORM_INF), 0.0);
}

TEST(Png, ColoursAreExact) {
    expect_same(decoded(png_file(four_quarters())), four_quarters());
    expect_same(decoded(png_file(four_quarters(), PngRows::interlaced)), four_quarters());
}

TEST(Png, GreyHasThreeEqualChannels) {
    cv::Mat grey(20, 256, CV_8UC1);
    for (int x = 0; x < 256; ++x) grey.col(x) = x;
    const cv::Mat bgr = decoded(png_file(grey));
    for (int x = 0; x < 256; ++x) {
        const auto level = static_cast<std::uint8_t>(x);
        EXPECT_EQ(bgr.at<cv::Vec3b>(7, x), cv::Vec3b(level, level, level));
    }
}

TEST(Png, SixteenBitsAreScaledNotCut) {
    // ISO/IEC 15948, 13.12: v * 255 / 65535, rounded.
    cv::Mat deep(16, 258, CV_16UC3);
    const auto value = [](int x) { return static_cast<std::uint16_t>(std::min(x * 255, 65535)); };
    for (int x = 0; x < deep.cols; ++x) deep.col(x) = cv::Scalar(value(x), 65535 - value(x), 30000);
    for (const PngRows rows : {PngRows::plain, PngRows::interlaced}) {
        const cv::Mat bgr = decoded(png_file(deep, rows));
        ASSERT_EQ(bgr.cols, deep.cols);
        for (int x = 0; x < deep.cols; ++x) {
            EXPECT_EQ(bgr.at<cv::Vec3b>(3, x)[0], std::lround(value(x) * 255.0 / 65535.0)) << x;
            EXPECT_EQ(bgr.at<cv::Vec3b>(3, x)[1], std::lround((65535 - value(x)) * 255.0 / 65535.0)) << x;
        }
    }
}

TEST(Png, TransparentPartsLieOnWhite) {
    cv::Mat bgra(8, 256, CV_8UC4);
    for (int x = 0; x < 256; ++x) bgra.col(x) = cv::Scalar(0, 100, 200, x);
    const cv::Mat bgr = decoded(png_file(bgra));
    for (int x = 0; x < 256; ++x) {
        // Porter and Duff, 1984: "over", on 255.
        const auto over = [x](int colour) { return colour * x / 255.0 + 255.0 * (1.0 - x / 255.0); };
        for (int c = 0; c < 3; ++c) EXPECT_NEAR(bgr.at<cv::Vec3b>(0, x)[c], over(100 * c), 0.51) << x;
    }
}

TEST(Png, PalettesWithAndWithoutAlpha) {
    cv::Mat indices(10, 3, CV_8UC1);
    for (int x = 0; x < 3; ++x) indices.col(x) = x;
    const std::vector<cv::Vec3b> palette = {red, green, blue};
    const cv::Mat opaque = decoded(palette_png_file(indices, palette, {}));
    const cv::Mat holed = decoded(palette_png_file(indices, palette, {255, 0}));
    for (int x = 0; x < 3; ++x) {
        const cv::Vec3b& colour = palette[static_cast<std::size_t>(x)];
        EXPECT_EQ(opaque.at<cv::Vec3b>(4, x), colour);
        EXPECT_EQ(holed.at<cv::Vec3b>(4, x), x == 1 ? cv::Vec3b(255, 255, 255) : colour);
    }
}

TEST(Png, ExifTurnsThePictureAndGivesTheFocalLength) {
    const Bytes exif = exif_block({.orientation = 3, .focal_length_35mm = 27});
    const auto photo = decode_photo(png_file(four_quarters(), PngRows::plain, exif), "", any_size());
    ASSERT_TRUE(photo.ok());
    EXPECT_EQ(quarters_of(photo->colour.bgr), (std::array<cv::Vec3b, 4>{yellow, blue, green, red}));
    EXPECT_EQ(photo->focal_length_35mm, 27.0);
}

TEST(Png, AChangedByteOfThePictureIsDamage) {
    // Every chunk has a CRC (ISO/IEC 15948, 5.5).
    Bytes file = png_file(four_quarters());
    file[file.size() / 2] ^= 0x10;
    const auto photo = decode_photo(file, "", any_size());
    ASSERT_FALSE(photo.ok());
    EXPECT_EQ(photo.refusal().code, "damaged-photo");
}

}  // namespace
}  // namespace ridgetally
