#pragma once

#include "files_of_tests.h"

/// WebP by libwebp's own encoder.
namespace ridgetally::files {

/// CV_8UC3 (BGR) or CV_8UC4 (BGRA).
[[nodiscard]] Bytes lossless_webp_file(const cv::Mat& picture);

/// CV_8UC3 (BGR).
[[nodiscard]] Bytes lossy_webp_file(const cv::Mat& bgr);

/// The extended form (RFC 9649, 2.7): VP8X with the flag for EXIF, the picture, the EXIF chunk.
[[nodiscard]] Bytes webp_with_exif(const Bytes& simple, const cv::Size& size, const Bytes& exif);

}  // namespace ridgetally::files
