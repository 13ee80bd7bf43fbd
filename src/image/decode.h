#pragma once

#include <cstdint>
#include <opencv2/core.hpp>
#include <optional>
#include <span>
#include <string>

#include "core/outcome.h"
#include "image/photo.h"

/// The decoders behind read_photo, one file a format; not for other layers.
namespace ridgetally {

enum class PhotoFormat { jpeg, png, heif, webp, unknown };

/// Told by the first bytes (JPEG: ITU-T T.81 B.1.1.3; PNG: ISO/IEC 15948 5.2; HEIF: ISO/IEC 14496-12 4.3 and
/// 23008-12 10.2; WebP: RFC 9649 2.4).
[[nodiscard]] PhotoFormat format_of(std::span<const std::uint8_t> bytes);

/// Pixels as the maker sees them.
struct UprightPicture {
    cv::Mat grey;  ///< CV_8UC1
    ColourOverview colour;
    std::optional<double> focal_length_35mm;
};

/// From upright pixels, CV_8UC3.
[[nodiscard]] UprightPicture picture_from(const cv::Mat& bgr, std::optional<double> focal_length_35mm);

[[nodiscard]] Outcome<UprightPicture> decode_jpeg(std::span<const std::uint8_t> bytes,
                                                  const ReadPhotoOptions& options);
[[nodiscard]] Outcome<UprightPicture> decode_png(std::span<const std::uint8_t> bytes,
                                                 const ReadPhotoOptions& options);

[[nodiscard]] Outcome<UprightPicture> decode_heif(std::span<const std::uint8_t> bytes,
                                                  const ReadPhotoOptions& options);
[[nodiscard]] Outcome<UprightPicture> decode_webp(std::span<const std::uint8_t> bytes,
                                                  const ReadPhotoOptions& options);

/// A refusal of stage "photo".
[[nodiscard]] Refusal photo_refusal(std::string code, std::string message, std::string hint);
[[nodiscard]] Refusal damaged_photo(const std::string& detail);
[[nodiscard]] Refusal unsupported_photo(const std::string& detail);

/// The refusal of a picture of this size, if the options refuse it.
[[nodiscard]] std::optional<Refusal> size_refusal(std::int64_t width_px, std::int64_t height_px,
                                                  const ReadPhotoOptions& options);

/// Whether colours are stored as they are or already multiplied by alpha.
enum class Alpha { straight, premultiplied };

/// CV_8UC4 with blue, green, red and alpha, laid on white: CV_8UC3.
[[nodiscard]] cv::Mat on_white(const cv::Mat& bgra, Alpha alpha);

}  // namespace ridgetally
