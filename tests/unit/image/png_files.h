#pragma once

#include "files_of_tests.h"

namespace ridgetally::files {

enum class PngRows { plain, interlaced };

/// PNG by libpng's own encoder: CV_8UC1, CV_8UC3 (BGR), CV_8UC4 (BGRA), CV_16UC1 or CV_16UC3 (BGR).
[[nodiscard]] Bytes png_file(const cv::Mat& picture, PngRows rows = PngRows::plain, const Bytes& exif = {});

/// PNG with a palette of BGR colours; `indices` is CV_8UC1. `alpha` may be shorter than the palette.
[[nodiscard]] Bytes palette_png_file(const cv::Mat& indices, const std::vector<cv::Vec3b>& palette,
                                     const Bytes& alpha);

}  // namespace ridgetally::files
