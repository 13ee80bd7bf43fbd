#pragma once

#include <libheif/heif.h>

#include "files_of_tests.h"

namespace ridgetally::files {

/// HEIC by libheif and its HEVC encoder, which writes irot and imir for `turn`. CV_8UC3 (BGR) or CV_8UC4
/// (BGRA).
[[nodiscard]] Bytes heic_file(const cv::Mat& picture, heif_orientation turn, const Bytes& exif);

}  // namespace ridgetally::files
