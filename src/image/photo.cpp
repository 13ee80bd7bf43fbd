#include "image/photo.h"

#include <cmath>
#include <future>
#include <utility>

#include "image/decode.h"
#include "image/file_bytes.h"

namespace ridgetally {
namespace {

Outcome<UprightPicture> decode(std::span<const std::uint8_t> bytes, const ReadPhotoOptions& options) {
    switch (format_of(bytes)) {
        case PhotoFormat::jpeg:
            return decode_jpeg(bytes, options);
        case PhotoFormat::png:
            return decode_png(bytes, options);
        case PhotoFormat::heif:
            return decode_heif(bytes, options);
        case PhotoFormat::webp:
            return decode_webp(bytes, options);
        case PhotoFormat::unknown:
            break;
    }
    if (bytes.empty()) return photo_refusal("not-a-photo", "the file is empty", "copy the photo again");
    return photo_refusal("not-a-photo", "the file is not a JPEG, PNG, HEIC or WebP picture",
                         "give the photo as the phone saved it");
}

Photo assembled(UprightPicture picture, const std::string& name, std::string sha256) {
    GreyPyramid pyramid = grey_pyramid(picture.grey);
    return {std::move(picture.grey),
            std::move(pyramid),
            std::move(picture.colour),
            picture.focal_length_35mm,
            name,
            std::move(sha256)};
}

}  // namespace

Photo photo_from_pixels(const cv::Mat& bgr) {
    UprightPicture picture = picture_from(bgr, std::nullopt);
    return assembled(std::move(picture), {}, {});
}

Outcome<Photo> decode_photo(std::span<const std::uint8_t> bytes, const std::string& name,
                            const ReadPhotoOptions& options) {
    // The hash takes a quarter of the time of decoding and runs beside it where a core is free.
    auto sha256 = std::async([bytes] { return sha256_hex(bytes); });
    auto picture = decode(bytes, options);
    if (!picture) return picture.refusal();
    return assembled(std::move(picture).value(), name, sha256.get());
}

Outcome<Photo> read_photo(const std::string& path, const ReadPhotoOptions& options) {
    const auto bytes = read_file(path, options.max_file_bytes);
    if (!bytes) return bytes.refusal();
    return decode_photo(*bytes, path, options);
}

std::optional<double> focal_length_px(const Photo& photo) {
    if (!photo.focal_length_35mm || photo.grey.empty()) return std::nullopt;
    const double frame_diagonal_mm = std::hypot(36.0, 24.0);
    return *photo.focal_length_35mm * std::hypot(photo.grey.cols, photo.grey.rows) / frame_diagonal_mm;
}

}  // namespace ridgetally
