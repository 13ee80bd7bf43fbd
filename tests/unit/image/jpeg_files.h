#pragma once

#include "files_of_tests.h"

namespace ridgetally::files {

enum class JpegColours { grey, ycc, rgb, cmyk_adobe, cmyk_plain, ycck_adobe };
enum class JpegScans { baseline, progressive };

struct JpegKind {
    JpegColours colours = JpegColours::ycc;
    JpegScans scans = JpegScans::baseline;
    /// Sampling factors of the first component; the others have 1 x 1.
    int horizontal_sampling = 1;
    int vertical_sampling = 1;
    /// Blocks between restart markers; 0 for none.
    int restart_blocks = 0;
    int quality = 100;
    /// Goes into APP1 behind "Exif\0\0".
    Bytes exif = {};
};

/// JPEG by libjpeg's own encoder. Inks are what gives the colours of `bgr`: C = 255 - R and so on, no black,
/// stored as 255 minus the ink in the kinds "adobe", as the ink itself in "plain".
[[nodiscard]] Bytes jpeg_file(const cv::Mat& bgr, const JpegKind& kind = {});

}  // namespace ridgetally::files
