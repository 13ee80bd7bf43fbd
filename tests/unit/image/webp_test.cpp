#include <gtest/gtest.h>

#include "files_of_tests.h"
#include "webp_files.h"

namespace ridgetally {
namespace {

using namespace files;

TEST(Webp, LosslessColoursAreExact) {
    const auto photo = decode_photo(lossless_webp_file(four_quarters()), "", any_size());
    ASSERT_TRUE(photo.ok());
    ASSERT_EQ(photo->colour.bgr.size(), four_quarters().size());
    EXPECT_EQ(cv::norm(photo->colour.bgr, four_quarters(), cv::NORM_INF), 0.0);
}

TEST(Webp, LossyColoursAreNear) {
    const auto photo = decode_photo(lossy_webp_file(four_quarters()), "", any_size());
    ASSERT_TRUE(photo.ok());
    const auto wanted = quarters_of(four_quarters());
    const auto got = quarters_of(photo->colour.bgr);
    // Colours go through 8-bit video range (219 levels of 255): two levels of rounding, twice.
    for (std::size_t i = 0; i < 4; ++i) EXPECT_LE(difference(got[i], wanted[i]), 4) << got[i];
}

TEST(Webp, TransparentPartsLieOnWhite) {
    cv::Mat bgra(16, 16, CV_8UC4, cv::Scalar(10, 20, 30, 255));
    bgra.colRange(0, 8) = cv::Scalar(10, 20, 30, 0);
    const auto photo = decode_photo(lossless_webp_file(bgra), "", any_size());
    ASSERT_TRUE(photo.ok());
    EXPECT_EQ(photo->colour.bgr.at<cv::Vec3b>(3, 3), cv::Vec3b(255, 255, 255));
    EXPECT_EQ(photo->colour.bgr.at<cv::Vec3b>(3, 12), cv::Vec3b(10, 20, 30));
}

TEST(Webp, ExifTurnsThePictureAndGivesTheFocalLength) {
    const Bytes exif = exif_block({.orientation = 6, .focal_length_35mm = 26});
    const auto photo = decode_photo(
        webp_with_exif(lossless_webp_file(four_quarters()), four_quarters().size(), exif), "", any_size());
    ASSERT_TRUE(photo.ok()) << photo.refusal().message;
    EXPECT_EQ(quarters_of(photo->colour.bgr), (std::array<cv::Vec3b, 4>{blue, red, yellow, green}));
    EXPECT_EQ(photo->focal_length_35mm, 26.0);
}

TEST(Webp, EveryCutIsDamage) {
    for (const Bytes& whole : {lossless_webp_file(four_quarters()), lossy_webp_file(four_quarters())}) {
        ASSERT_TRUE(decode_photo(whole, "", any_size()).ok());
        for (std::size_t size = 12; size < whole.size(); ++size) {
            const auto photo = decode_photo({whole.data(), size}, "", any_size());
            ASSERT_FALSE(photo.ok()) << size;
            EXPECT_EQ(photo.refusal().code, "damaged-photo") << size;
        }
    }
}

TEST(Webp, AnimationsAreNamed) {
    Bytes file = webp_with_exif(lossless_webp_file(four_quarters()), four_quarters().size(), {0, 0});
    file[20] |= 0x02;  // RFC 9649, 2.7.1: the animation flag
    const auto photo = decode_photo(file, "", any_size());
    ASSERT_FALSE(photo.ok());
    EXPECT_EQ(photo.refusal().code, "unsupported-photo");
}

}  // namespace
}  // namespace ridgetally
