#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <vector>

namespace ridgetally::synthetic {

/// How a phone saves a photo.
struct JpegOptions {
    int quality = 90;
    int orientation = 1;  ///< EXIF orientation 1..8; the stored pixels are turned to match
    std::optional<double>
        focal35_mm;  ///< EXIF FocalLengthIn35mmFilm; no EXIF block without it or an orientation
};

/// JPEG bytes (ITU-T T.81) of an upright picture, with an EXIF block (CIPA DC-008) where asked for.
[[nodiscard]] std::vector<unsigned char> jpeg_bytes(const cv::Mat3b& upright, const JpegOptions& options);

/// Writes bytes to a file. Throws std::runtime_error where that fails.
void write_file(const std::string& path, const std::vector<unsigned char>& bytes);

}  // namespace ridgetally::synthetic
