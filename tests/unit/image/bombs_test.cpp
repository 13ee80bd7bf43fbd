#include <gtest/gtest.h>
#include <zlib.h>

#include <stdexcept>
#include <string>
#include <tuple>

#include "decode_apart.h"
#include "jpeg_files.h"
#include "png_files.h"
#include "webp_files.h"

/// Small files that claim, or unpack to, far more than a photo: refused, or read, without the memory for it.
namespace ridgetally {
namespace {

using namespace files;

/// A PNG chunk (ISO/IEC 15948, 5.3): length, name, data, CRC.
void append_chunk(Bytes& file, const std::string& name, const Bytes& data) {
    put_big(file, data.size(), 4);
    const std::size_t start = file.size();
    file.insert(file.end(), name.begin(), name.end());
    file.insert(file.end(), data.begin(), data.end());
    put_big(file, ::crc32(0, file.data() + start, static_cast<uInt>(file.size() - start)), 4);
}

/// Letters: the library drops a text of zeros by itself.
Bytes deflated_text(std::size_t size) {
    const Bytes text(size, 'k');
    uLongf length = ::compressBound(size);
    Bytes packed(length);
    if (::compress2(packed.data(), &length, text.data(), size, 9) != Z_OK) throw std::runtime_error("zlib");
    packed.resize(length);
    return packed;
}

/// A PNG with `count` chunks behind its header (8 bytes of signature, 25 of IHDR).
Bytes png_with(const std::string& chunk, const Bytes& data, int count) {
    constexpr std::ptrdiff_t header = 33;
    const Bytes plain = png_file(four_quarters());
    Bytes file(plain.begin(), plain.begin() + header);
    for (int i = 0; i < count; ++i) append_chunk(file, chunk, data);
    file.insert(file.end(), plain.begin() + header, plain.end());
    return file;
}

TEST(Bombs, PngTextsAndProfilesAreNotUnpacked) {
    const Bytes packed = deflated_text(std::size_t{8} << 20);
    ASSERT_LT(packed.size(), 10000U);
    Bytes text = {'k', 0, 0};  // keyword, its end, method (11.3.4.3)
    text.insert(text.end(), packed.begin(), packed.end());
    Bytes international = {'k', 0, 1, 0, 0, 0};  // compressed, method, no language, no translation (11.3.4.5)
    international.insert(international.end(), packed.begin(), packed.end());
    // 512 MiB each; the profile says only once what it is.
    for (const auto& [chunk, data, count] :
         {std::tuple{"zTXt", text, 64}, std::tuple{"iTXt", international, 64}, std::tuple{"iCCP", text, 1}}) {
        const Bytes file = png_with(chunk, data, count);
        EXPECT_LT(file.size(), 700000U);
        const Taken taken = decode_apart(file);
        EXPECT_EQ(taken.code, "read") << chunk;
        EXPECT_LT(taken.grown_kib, little_kib) << chunk;
    }
}

TEST(Bombs, PngOfPixelsThatAreNotThereIsRefused) {
    Bytes file = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
    Bytes header;
    put_big(header, 30000, 4);
    put_big(header, 30000, 4);
    header.insert(header.end(), {8, 6, 0, 0, 0});  // depth, colours with alpha, methods
    append_chunk(file, "IHDR", header);
    append_chunk(file, "IDAT", deflated_text(std::size_t{1} << 20));
    append_chunk(file, "IEND", {});
    const Taken taken = decode_apart(file);
    EXPECT_EQ(taken.code, "too-large");
    EXPECT_LT(taken.grown_kib, little_kib);
}

TEST(Bombs, WebpOfTheLargestSizeIsRefused) {
    // VP8L (RFC 9649, 3.4): one byte 0x2F, then 14 bits of width - 1 and 14 of height - 1, low bits first.
    Bytes file = lossless_webp_file(four_quarters());
    ASSERT_EQ(file[20], 0x2F);
    file[21] = file[22] = file[23] = 0xFF;
    file[24] |= 0x0F;
    const Taken taken = decode_apart(file);
    EXPECT_EQ(taken.code, "too-large");
    EXPECT_LT(taken.grown_kib, little_kib);
}

TEST(Bombs, JpegOfTheLargestSizeIsRefused) {
    Bytes file = jpeg_file(four_quarters(), {.scans = JpegScans::progressive});
    for (std::size_t i = 0; i + 9 < file.size(); ++i) {
        // ITU-T T.81, B.2.2: lines and samples per line of a progressive frame.
        if (file[i] == 0xFF && file[i + 1] == 0xC2) {
            file[i + 5] = file[i + 7] = 0xFF;
            break;
        }
    }
    const Taken taken = decode_apart(file);
    EXPECT_EQ(taken.code, "too-large");
    EXPECT_LT(taken.grown_kib, little_kib);
}

TEST(Bombs, AJpegOfVeryManyScansIsRefused) {
    const Bytes plain = jpeg_file(four_quarters(), {.scans = JpegScans::progressive});
    std::size_t last_scan = 0;
    for (std::size_t i = 0; i + 1 < plain.size(); ++i)
        if (plain[i] == 0xFF && plain[i + 1] == 0xDA) last_scan = i;
    ASSERT_GT(last_scan, 0U);
    const auto end = plain.end() - 2;  // the mark of the end
    Bytes file(plain.begin(), end);
    for (int i = 0; i < 200; ++i)
        file.insert(file.end(), plain.begin() + static_cast<std::ptrdiff_t>(last_scan), end);
    file.insert(file.end(), end, plain.end());
    const auto photo = decode_photo(file, "", any_size());
    ASSERT_FALSE(photo.ok());
    EXPECT_EQ(photo.refusal().code, "damaged-photo");
    EXPECT_NE(photo.refusal().message.find("too many scans"), std::string::npos) << photo.refusal().message;
}

}  // namespace
}  // namespace ridgetally
