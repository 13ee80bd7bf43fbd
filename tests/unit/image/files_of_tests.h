#pragma once

#include <array>
#include <cstdint>
#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/random.h"
#include "image/photo.h"

/// Photo files that the tests build themselves, byte by byte or with the libraries' own encoders.
namespace ridgetally::files {

using Bytes = std::vector<std::uint8_t>;

/// Colours far apart, as blue, green, red.
inline const cv::Vec3b red(40, 30, 200);
inline const cv::Vec3b green(60, 180, 40);
inline const cv::Vec3b blue(190, 60, 30);
inline const cv::Vec3b yellow(50, 210, 220);

/// BGR picture of four flat quarters: red top left, green top right, blue bottom left, yellow bottom right.
/// Sides in whole multiples of 64 px, so that no JPEG block, whatever its sampling, spans two quarters.
[[nodiscard]] cv::Mat four_quarters(const cv::Size& size = {192, 128});

/// Where the quarters of a picture are: the colours in the middle of its top left, top right, bottom left and
/// bottom right quarter.
[[nodiscard]] std::array<cv::Vec3b, 4> quarters_of(const cv::Mat& bgr);

/// Largest difference between two colours over the channels.
[[nodiscard]] int difference(const cv::Vec3b& a, const cv::Vec3b& b);

enum class ByteOrder { little, big };

/// What an EXIF block holds; absent fields are left out.
struct ExifContent {
    std::optional<std::uint16_t> orientation = {};
    std::optional<std::uint16_t> focal_length_35mm = {};
    std::optional<std::uint32_t> width_px = {};
    std::optional<std::uint32_t> height_px = {};
    ByteOrder order = ByteOrder::little;
};

/// An EXIF block from its TIFF header on (CIPA DC-008, 4.5 and 4.6: header, directory 0, Exif directory).
[[nodiscard]] Bytes exif_block(const ExifContent& content);

/// The same file with one to four bytes changed.
[[nodiscard]] Bytes with_changed_bytes(const Bytes& whole, Random& random);

/// Appends a number of `width` bytes, high byte first.
void put_big(Bytes& bytes, std::size_t value, int width);

/// Reading without lower limits, so that small files can be used.
[[nodiscard]] ReadPhotoOptions any_size();

}  // namespace ridgetally::files
