#include <gtest/gtest.h>
#include <libheif/heif.h>

#include "core/random.h"
#include "files_of_tests.h"
#include "heif_files.h"

// libx265, which encodes the files of these tests, keeps some buffers until the end of the process.
// NOLINTNEXTLINE(bugprone-reserved-identifier): LeakSanitizer asks for this name
extern "C" const char* __lsan_default_suppressions() { return "leak:libx265"; }

namespace ridgetally {
namespace {

using namespace files;

class Heif : public testing::Test {
  protected:
    void SetUp() override {
        if (heif_have_encoder_for_format(heif_compression_HEVC) == 0)
            GTEST_SKIP() << "this libheif has no HEVC encoder to make a file with";
        if (heif_have_decoder_for_format(heif_compression_HEVC) == 0)
            GTEST_SKIP() << "this libheif has no HEVC decoder";
    }
};

void expect_quarters(const Bytes& file, const std::array<cv::Vec3b, 4>& wanted) {
    const auto photo = decode_photo(file, "", any_size());
    ASSERT_TRUE(photo.ok()) << photo.refusal().message;
    const auto got = quarters_of(photo->colour.bgr);
    // Video range and a lossy code: rounding as for WebP.
    for (std::size_t i = 0; i < 4; ++i) EXPECT_LE(difference(got[i], wanted[i]), 4) << i << ": " << got[i];
}

TEST_F(Heif, ColoursComeOutAsTheyWentIn) {
    expect_quarters(heic_file(four_quarters(), heif_orientation_normal, {}), {red, green, blue, yellow});
}

TEST_F(Heif, TheFilesOwnTurnIsApplied) {
    expect_quarters(heic_file(four_quarters(), heif_orientation_rotate_90_cw, {}),
                    {blue, red, yellow, green});
    expect_quarters(heic_file(four_quarters(), heif_orientation_rotate_180, {}), {yellow, blue, green, red});
}

TEST_F(Heif, ExifOrientationIsNotAppliedASecondTime) {
    const Bytes exif = exif_block({.orientation = 6, .focal_length_35mm = 26});
    expect_quarters(heic_file(four_quarters(), heif_orientation_rotate_90_cw, exif),
                    {blue, red, yellow, green});
    const auto photo =
        decode_photo(heic_file(four_quarters(), heif_orientation_normal, exif), "", any_size());
    ASSERT_TRUE(photo.ok());
    EXPECT_EQ(photo->colour.bgr.size(), four_quarters().size());
    EXPECT_EQ(photo->focal_length_35mm, 26.0);
}

TEST_F(Heif, TransparentPartsLieOnWhite) {
    cv::Mat bgra(128, 128, CV_8UC4, cv::Scalar(10, 20, 30, 255));
    bgra.colRange(0, 64) = cv::Scalar(10, 20, 30, 0);
    const auto photo = decode_photo(heic_file(bgra, heif_orientation_normal, {}), "", any_size());
    ASSERT_TRUE(photo.ok()) << photo.refusal().message;
    EXPECT_LE(difference(photo->colour.bgr.at<cv::Vec3b>(64, 20), cv::Vec3b(255, 255, 255)), 4);
    EXPECT_LE(difference(photo->colour.bgr.at<cv::Vec3b>(64, 108), cv::Vec3b(10, 20, 30)), 4);
}

TEST_F(Heif, EveryCutIsDamage) {
    const Bytes whole = heic_file(four_quarters(), heif_orientation_normal, {});
    for (std::size_t size = 12; size < whole.size(); ++size) {
        const auto photo = decode_photo({whole.data(), size}, "", any_size());
        ASSERT_FALSE(photo.ok()) << size << " of " << whole.size();
        EXPECT_EQ(photo.refusal().code, "damaged-photo") << size;
    }
}

TEST_F(Heif, ChangedBytesAreHarmlessAndSilent) {
    const Bytes whole = heic_file(four_quarters(), heif_orientation_normal, exif_block({.orientation = 6}));
    testing::internal::CaptureStderr();
    Random random(6);
    for (int trial = 0; trial < 400; ++trial) {
        const auto photo = decode_photo(with_changed_bytes(whole, random), "", any_size());
        if (photo) {
            EXPECT_EQ(photo->colour.bgr.type(), CV_8UC3);
        } else {
            EXPECT_EQ(photo.refusal().stage, "photo");
        }
    }
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

TEST_F(Heif, SizeLimitsHold) {
    const Bytes file = heic_file(four_quarters(), heif_orientation_normal, {});
    ReadPhotoOptions options = any_size();
    options.max_megapixels = 0.02;  // the picture has 0.025
    const auto photo = decode_photo(file, "", options);
    ASSERT_FALSE(photo.ok());
    EXPECT_EQ(photo.refusal().code, "too-large");
    const auto small = decode_photo(file, "");
    ASSERT_FALSE(small.ok());
    EXPECT_EQ(small.refusal().code, "too-small");
}

TEST_F(Heif, AHugeDeclaredSizeIsRefused) {
    Bytes file = heic_file(four_quarters(), heif_orientation_normal, {});
    int properties = 0;
    for (std::size_t i = 0; i + 16 < file.size(); ++i) {
        // Property "ispe" (ISO/IEC 23008-12, 6.5.3): name, version and flags, width, height.
        if (std::string(file.begin() + static_cast<std::ptrdiff_t>(i),
                        file.begin() + static_cast<std::ptrdiff_t>(i + 4)) != "ispe")
            continue;
        ++properties;
        file[i + 9] = file[i + 13] = 1;  // 65536 px more each way
    }
    ASSERT_GT(properties, 0);
    const auto photo = decode_photo(file, "", any_size());
    ASSERT_FALSE(photo.ok());
    // libheif has a limit of its own, and may be the first to refuse.
    EXPECT_TRUE(photo.refusal().code == "too-large" || photo.refusal().code == "damaged-photo");
}

}  // namespace
}  // namespace ridgetally
