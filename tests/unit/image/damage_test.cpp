#include <gtest/gtest.h>

#include "core/random.h"
#include "jpeg_files.h"
#include "png_files.h"

/// Whatever the bytes are: no crash, no half picture, nothing on standard error.
namespace ridgetally {
namespace {

using namespace files;

void expect_every_cut_refused(const Bytes& whole) {
    ASSERT_TRUE(decode_photo(whole, "", any_size()).ok());
    for (std::size_t size = 0; size < whole.size(); ++size) {
        const auto photo = decode_photo({whole.data(), size}, "", any_size());
        ASSERT_FALSE(photo.ok()) << size << " of " << whole.size();
        const std::string& code = photo.refusal().code;
        EXPECT_TRUE(code == "damaged-photo" || (code == "not-a-photo" && size < 8)) << size << ": " << code;
    }
}

cv::Mat noise_picture() {
    Random random(11);
    cv::Mat picture(40, 56, CV_8UC3);
    for (int y = 0; y < picture.rows; ++y) {
        for (int x = 0; x < picture.cols; ++x) {
            for (int c = 0; c < 3; ++c)
                picture.at<cv::Vec3b>(y, x)[c] = static_cast<std::uint8_t>(random.whole(0, 255));
        }
    }
    return picture;
}

class Damage : public testing::Test {
  protected:
    void SetUp() override { testing::internal::CaptureStderr(); }
    void TearDown() override { EXPECT_EQ(testing::internal::GetCapturedStderr(), ""); }
};

TEST_F(Damage, EveryCutOfAJpegIsRefused) {
    const Bytes exif = exif_block({.orientation = 6, .focal_length_35mm = 27});
    expect_every_cut_refused(jpeg_file(noise_picture(), {.quality = 60, .exif = exif}));
    expect_every_cut_refused(jpeg_file(noise_picture(), {.horizontal_sampling = 2, .restart_blocks = 2}));
}

TEST_F(Damage, EveryCutOfAProgressiveJpegIsRefused) {
    expect_every_cut_refused(jpeg_file(noise_picture(), {.scans = JpegScans::progressive, .quality = 60}));
}

TEST_F(Damage, EveryCutOfAPngIsRefused) {
    expect_every_cut_refused(png_file(noise_picture()));
    expect_every_cut_refused(png_file(noise_picture(), PngRows::interlaced));
}

TEST_F(Damage, ChangedBytesAreHarmless) {
    Random random(5);
    for (const Bytes& whole :
         {jpeg_file(noise_picture(), {.quality = 60}),
          jpeg_file(noise_picture(), {.scans = JpegScans::progressive, .quality = 60}),
          jpeg_file(noise_picture(), {.colours = JpegColours::ycck_adobe}), png_file(noise_picture())}) {
        for (int trial = 0; trial < 1500; ++trial) {
            const auto photo = decode_photo(with_changed_bytes(whole, random), "", any_size());
            if (photo) {
                ASSERT_FALSE(photo->colour.bgr.empty());
                ASSERT_EQ(photo->colour.bgr.type(), CV_8UC3);
            } else {
                ASSERT_EQ(photo.refusal().stage, "photo");
            }
        }
    }
}

TEST_F(Damage, RandomBytesAreNoPhoto) {
    using namespace std::string_literals;
    Random random(9);
    for (const std::string& start :
         {""s, "\xFF\xD8\xFF\xE1"s, "\x89PNG\r\n\x1A\n"s, "RIFF\xF0\0\0\0WEBPVP8 "s,
          "RIFF\xF0\0\0\0WEBPVP8L"s, "\0\0\0\x18"s + "ftypheic"s}) {
        for (int trial = 0; trial < 300; ++trial) {
            Bytes file(start.begin(), start.end());
            for (int i = 0; i < 300; ++i) file.push_back(static_cast<std::uint8_t>(random.whole(0, 255)));
            ASSERT_FALSE(decode_photo(file, "", any_size()).ok()) << start << ", trial " << trial;
        }
    }
}

}  // namespace
}  // namespace ridgetally
