#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "jpeg_files.h"

namespace ridgetally {
namespace {

using namespace files;

/// Flat blocks hold only a mean value: at quality 100 it is stored in steps of 1/8 level, and what is left is
/// the rounding of each of the colour conversions there and back (ITU-T T.871, section 7), two levels at
/// most.
constexpr int rounding = 2;

void expect_quarters(const Bytes& file, const char* what) {
    const auto photo = decode_photo(file, what, any_size());
    ASSERT_TRUE(photo.ok()) << what << ": " << photo.refusal().message;
    ASSERT_EQ(photo->colour.bgr.type(), CV_8UC3);
    EXPECT_EQ(photo->colour.bgr.size(), four_quarters().size());
    const auto wanted = quarters_of(four_quarters());
    const auto got = quarters_of(photo->colour.bgr);
    for (std::size_t i = 0; i < 4; ++i)
        EXPECT_LE(difference(got[i], wanted[i]), rounding) << what << ", quarter " << i << ": " << got[i];
}

TEST(Jpeg, ColoursComeOutAsTheyWentIn) {
    expect_quarters(jpeg_file(four_quarters()), "YCbCr");
    expect_quarters(jpeg_file(four_quarters(), {.colours = JpegColours::rgb}), "RGB");
    expect_quarters(jpeg_file(four_quarters(), {.restart_blocks = 3}), "restart markers");
}

TEST(Jpeg, ProgressivePicturesAreRead) {
    expect_quarters(jpeg_file(four_quarters(), {.scans = JpegScans::progressive}), "progressive");
    expect_quarters(
        jpeg_file(four_quarters(),
                  {.scans = JpegScans::progressive, .horizontal_sampling = 2, .vertical_sampling = 2}),
        "progressive 2 x 2");
}

TEST(Jpeg, EverySamplingIsRead) {
    for (int h = 1; h <= 4; ++h) {
        for (int v = 1; v <= 2; ++v) {
            const std::string what = std::to_string(h) + " x " + std::to_string(v);
            expect_quarters(jpeg_file(four_quarters(), {.horizontal_sampling = h, .vertical_sampling = v}),
                            what.c_str());
        }
    }
}

TEST(Jpeg, InksBecomeLight) {
    expect_quarters(jpeg_file(four_quarters(), {.colours = JpegColours::cmyk_adobe}), "CMYK, Adobe");
    expect_quarters(jpeg_file(four_quarters(), {.colours = JpegColours::ycck_adobe}), "YCCK, Adobe");
    expect_quarters(jpeg_file(four_quarters(), {.colours = JpegColours::cmyk_plain}), "CMYK");
}

TEST(Jpeg, GreyHasThreeEqualChannels) {
    const auto photo =
        decode_photo(jpeg_file(four_quarters(), {.colours = JpegColours::grey}), "", any_size());
    ASSERT_TRUE(photo.ok());
    const auto wanted = quarters_of(four_quarters());
    const auto got = quarters_of(photo->colour.bgr);
    for (std::size_t i = 0; i < 4; ++i) {
        // ITU-R BT.601, 2.5.1: luma of red, green and blue.
        const double luma = 0.299 * wanted[i][2] + 0.587 * wanted[i][1] + 0.114 * wanted[i][0];
        EXPECT_NEAR(got[i][0], luma, 1.5);
        EXPECT_EQ(got[i][0], got[i][1]);
        EXPECT_EQ(got[i][0], got[i][2]);
    }
}

TEST(Jpeg, SizesThatFillNoWholeBlockAreRead) {
    for (const cv::Size size : {cv::Size(1, 1), cv::Size(17, 65), cv::Size(130, 63)}) {
        const cv::Mat picture(size, CV_8UC3, cv::Scalar(60, 180, 40));
        const auto photo = decode_photo(
            jpeg_file(picture, {.horizontal_sampling = 2, .vertical_sampling = 2}), "", any_size());
        ASSERT_TRUE(photo.ok());
        EXPECT_EQ(photo->colour.bgr.size(), size);
        const cv::Vec3b last = photo->colour.bgr.at<cv::Vec3b>(size.height - 1, size.width - 1);
        EXPECT_LE(difference(last, cv::Vec3b(60, 180, 40)), rounding);
    }
}

TEST(Jpeg, StrayBytesBeforeTheEndAreHarmless) {
    // Cameras that pad the coded data leave zeros before the end marker; the picture is whole.
    Bytes file = jpeg_file(four_quarters());
    file.insert(file.end() - 2, 7, 0);
    expect_quarters(file, "padded");
    Bytes followed = jpeg_file(four_quarters());
    followed.insert(followed.end(), 1000, 0x5A);
    expect_quarters(followed, "followed by other data");
}

TEST(Jpeg, ALostRestartIntervalIsDamage) {
    const Bytes file = jpeg_file(four_quarters(), {.restart_blocks = 8});
    Bytes cut;
    int markers = 0;
    for (std::size_t i = 0; i < file.size(); ++i) {
        if (i + 1 < file.size() && file[i] == 0xFF && file[i + 1] >= 0xD0 && file[i + 1] <= 0xD7) ++markers;
        if (markers != 3) cut.push_back(file[i]);  // what follows the third marker is left out
    }
    ASSERT_GT(markers, 5);
    const auto photo = decode_photo(cut, "", any_size());
    ASSERT_FALSE(photo.ok());
    EXPECT_EQ(photo.refusal().code, "damaged-photo");
}

TEST(Jpeg, OtherProcessesOfTheStandardAreNamed) {
    // Start of frame 11 is lossless coding with arithmetic codes (ITU-T T.81, table B.1).
    Bytes file = jpeg_file(four_quarters());
    for (std::size_t i = 0; i + 1 < file.size(); ++i) {
        if (file[i] == 0xFF && file[i + 1] == 0xC0) file[i + 1] = 0xCB;
    }
    const auto photo = decode_photo(file, "", any_size());
    ASSERT_FALSE(photo.ok());
    EXPECT_EQ(photo.refusal().code, "unsupported-photo");
}

}  // namespace
}  // namespace ridgetally
