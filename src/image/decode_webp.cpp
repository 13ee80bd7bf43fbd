#include <webp/decode.h>

#include <cstring>
#include <string>

#include "image/decode.h"
#include "image/exif.h"
#include "image/orientation.h"

namespace ridgetally {
namespace {

std::size_t little_endian_32(std::span<const std::uint8_t> bytes) {
    return bytes[0] | (std::size_t{bytes[1]} << 8) | (std::size_t{bytes[2]} << 16) |
           (std::size_t{bytes[3]} << 24);
}

/// A RIFF file starts with its name and size (RFC 9649, 2.4); a shorter one was cut off.
bool is_whole(std::span<const std::uint8_t> bytes) {
    return bytes.size() >= 12 && little_endian_32(bytes.subspan(4)) + 8 <= bytes.size();
}

/// The chunk "EXIF" (RFC 9649, 2.7.1.5), if there is one.
ExifFacts exif_of(std::span<const std::uint8_t> bytes) {
    constexpr std::size_t chunk_header = 8;
    auto left = bytes.subspan(12);
    while (left.size() >= chunk_header) {
        const std::size_t size = little_endian_32(left.subspan(4));
        if (size > left.size() - chunk_header) return {};
        if (std::memcmp(left.data(), "EXIF", 4) == 0) return read_exif(left.subspan(chunk_header, size));
        const std::size_t padded = size + size % 2;
        if (padded > left.size() - chunk_header) return {};
        left = left.subspan(chunk_header + padded);
    }
    return {};
}

bool decode_into(cv::Mat& pixels, std::span<const std::uint8_t> bytes) {
    const auto size = pixels.step * static_cast<std::size_t>(pixels.rows);
    const auto decoder = pixels.channels() == 4 ? WebPDecodeBGRAInto : WebPDecodeBGRInto;
    return decoder(bytes.data(), bytes.size(), pixels.data, size, static_cast<int>(pixels.step)) != nullptr;
}

}  // namespace

Outcome<UprightPicture> decode_webp(std::span<const std::uint8_t> bytes, const ReadPhotoOptions& options) {
    WebPBitstreamFeatures features{};
    if (WebPGetFeatures(bytes.data(), bytes.size(), &features) != VP8_STATUS_OK)
        return damaged_photo("WebP header");
    if (features.has_animation != 0) return unsupported_photo("an animated WebP");
    if (auto refusal = size_refusal(features.width, features.height, options)) return *refusal;
    if (!is_whole(bytes)) return damaged_photo("the file ends early");

    cv::Mat pixels(features.height, features.width, features.has_alpha != 0 ? CV_8UC4 : CV_8UC3);
    if (!decode_into(pixels, bytes)) return damaged_photo("WebP picture data");
    if (pixels.channels() == 4) pixels = on_white(pixels, Alpha::straight);

    const ExifFacts exif = exif_of(bytes);
    return picture_from(turned_upright(std::move(pixels), exif.orientation),
                        focal_length_of_whole_frame(exif, features.width, features.height));
}

}  // namespace ridgetally
