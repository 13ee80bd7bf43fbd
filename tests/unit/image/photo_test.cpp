#include "image/photo.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>

#include "image/decode.h"
#include "image/file_bytes.h"
#include "jpeg_files.h"
#include "png_files.h"

namespace ridgetally {
namespace {

using namespace files;

class PhotoFile : public testing::Test {
  protected:
    void SetUp() override {
        const std::string name = testing::UnitTest::GetInstance()->current_test_info()->name();
        folder = std::filesystem::temp_directory_path() / ("photo-" + name + std::to_string(::getpid()));
        std::filesystem::create_directories(folder);
    }
    void TearDown() override { std::filesystem::remove_all(folder); }

    std::string saved(const std::string& name, const Bytes& bytes) const {
        std::string path = (folder / name).string();
        EXPECT_TRUE(write_file(path, bytes).ok());
        return path;
    }

    std::filesystem::path folder;
};

std::string code_of(const Outcome<Photo>& photo) { return photo.ok() ? "read" : photo.refusal().code; }

TEST_F(PhotoFile, IsReadWithNameAndHash) {
    const Bytes bytes = jpeg_file(four_quarters({640, 512}));
    const std::string path = saved("swatch.jpg", bytes);
    const auto photo = read_photo(path);
    ASSERT_TRUE(photo.ok()) << photo.refusal().message;
    EXPECT_EQ(photo->file, path);
    EXPECT_EQ(photo->sha256, sha256_hex(bytes));
    EXPECT_EQ(photo->colour.bgr.size(), cv::Size(640, 512));
}

TEST_F(PhotoFile, FormatIsToldByTheBytesNotTheName) {
    EXPECT_EQ(code_of(read_photo(saved("named.jpg", png_file(four_quarters({640, 512}))))), "read");
    EXPECT_EQ(code_of(read_photo(saved("named.heic", jpeg_file(four_quarters({640, 512}))))), "read");
}

TEST_F(PhotoFile, FaultsAreToldApart) {
    EXPECT_EQ(code_of(read_photo((folder / "none.jpg").string())), "no-input");
    EXPECT_EQ(code_of(read_photo(folder.string())), "no-input");
    EXPECT_EQ(code_of(read_photo("")), "no-input");
    EXPECT_EQ(code_of(read_photo(saved("empty.jpg", {}))), "not-a-photo");
    EXPECT_EQ(code_of(read_photo(saved("note.jpg", {'h', 'e', 'l', 'l', 'o'}))), "not-a-photo");
    Bytes cut = jpeg_file(four_quarters({640, 512}));
    cut.resize(cut.size() / 2);
    EXPECT_EQ(code_of(read_photo(saved("cut.jpg", cut))), "damaged-photo");
}

TEST_F(PhotoFile, WithoutPermissionThereIsNoInput) {
    if (::geteuid() == 0) GTEST_SKIP() << "the superuser may read everything";
    const std::string path = saved("locked.jpg", jpeg_file(four_quarters({640, 512})));
    std::filesystem::permissions(path, std::filesystem::perms::none);
    EXPECT_EQ(code_of(read_photo(path)), "no-input");
}

TEST_F(PhotoFile, SizeLimits) {
    EXPECT_EQ(code_of(read_photo(saved("small.png", png_file(four_quarters({512, 512}))))), "too-small");
    EXPECT_EQ(code_of(read_photo(saved("thin.png", png_file(four_quarters({6400, 128}))))), "too-small");
    ReadPhotoOptions options;
    options.max_file_bytes = 1000;
    EXPECT_EQ(code_of(read_photo(saved("big.jpg", jpeg_file(four_quarters({640, 512}))), options)),
              "too-large");
}

void put(Bytes& bytes, std::size_t at, std::uint32_t value, int width) {
    for (int i = 0; i < width; ++i)
        bytes[at + static_cast<std::size_t>(i)] = static_cast<std::uint8_t>(value >> (8 * (width - 1 - i)));
}

/// CRC-32 as PNG uses it (ISO/IEC 15948, annex D), bit by bit.
std::uint32_t crc(std::span<const std::uint8_t> bytes) {
    std::uint32_t sum = 0xFFFFFFFFU;
    for (const std::uint8_t byte : bytes) {
        sum ^= byte;
        for (int bit = 0; bit < 8; ++bit) sum = (sum >> 1) ^ ((sum & 1U) != 0U ? 0xEDB88320U : 0U);
    }
    return ~sum;
}

TEST(Photo, HugeDeclaredSizesAreRefusedBeforeMemoryIsTaken) {
    Bytes png = png_file(four_quarters());
    put(png, 16, 100000, 4);  // IHDR starts at 8 with length and name; width and height follow
    put(png, 20, 100000, 4);
    put(png, 29, crc({png.data() + 12, 17}), 4);
    EXPECT_EQ(code_of(decode_photo(png, "", any_size())), "too-large");

    Bytes jpeg = jpeg_file(four_quarters());
    for (std::size_t i = 0; i + 9 < jpeg.size(); ++i) {
        if (jpeg[i] != 0xFF || jpeg[i + 1] != 0xC0) continue;
        put(jpeg, i + 5, 65500, 2);  // ITU-T T.81, B.2.2: lines and samples per line
        put(jpeg, i + 7, 65500, 2);
    }
    EXPECT_EQ(code_of(decode_photo(jpeg, "", any_size())), "too-large");
}

TEST(Photo, ADeclaredSizeWithinTheLimitButWithoutPixelsIsDamage) {
    Bytes jpeg = jpeg_file(four_quarters());
    for (std::size_t i = 0; i + 9 < jpeg.size(); ++i) {
        if (jpeg[i] == 0xFF && jpeg[i + 1] == 0xC0) put(jpeg, i + 5, 3000, 2);
    }
    EXPECT_EQ(code_of(decode_photo(jpeg, "", any_size())), "damaged-photo");
}

TEST(Photo, BrokenExifDoesNotSpoilThePixels) {
    Bytes exif = exif_block({.orientation = 6, .focal_length_35mm = 27});
    exif.resize(12);
    const auto photo = decode_photo(jpeg_file(four_quarters(), {.exif = exif}), "", any_size());
    ASSERT_TRUE(photo.ok());
    EXPECT_EQ(photo->colour.bgr.size(), four_quarters().size());
    EXPECT_FALSE(photo->focal_length_35mm);
}

TEST(Photo, FocalLengthInPixels) {
    // CIPA DC-008: equal diagonals. A 4:3 frame of 4000 x 3000 px has 5000 px, film 43.267 mm.
    Photo photo;
    photo.grey.create(3000, 4000, CV_8UC1);
    EXPECT_FALSE(focal_length_px(photo));
    photo.focal_length_35mm = 26.0;
    ASSERT_TRUE(focal_length_px(photo));
    EXPECT_NEAR(*focal_length_px(photo), 26.0 * 5000.0 / 43.2666, 0.1);
}

TEST(Photo, FormatsByTheirFirstBytes) {
    const auto format = [](const std::string& start) {
        return format_of({reinterpret_cast<const std::uint8_t*>(start.data()), start.size()});
    };
    using namespace std::string_literals;
    EXPECT_EQ(format("\xFF\xD8\xFF\xE0"), PhotoFormat::jpeg);
    EXPECT_EQ(format("\x89PNG\r\n\x1A\n"), PhotoFormat::png);
    EXPECT_EQ(format("RIFF\0\0\0\0WEBP"s), PhotoFormat::webp);
    EXPECT_EQ(format("\0\0\0\x18"
                     "ftypheic"s),
              PhotoFormat::heif);
    EXPECT_EQ(format("\0\0\0\x18"
                     "ftypmif1"s),
              PhotoFormat::heif);
    EXPECT_EQ(format("\0\0\0\x18"
                     "ftypmp42"s),
              PhotoFormat::unknown);
    EXPECT_EQ(format("GIF89a"), PhotoFormat::unknown);
    EXPECT_EQ(format("\xFF\xD8"), PhotoFormat::unknown);
    EXPECT_EQ(format(""), PhotoFormat::unknown);
}

}  // namespace
}  // namespace ridgetally
