#pragma once

#include <cstdint>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/outcome.h"
#include "image/file_bytes.h"

namespace ridgetally {

/// PNG of a CV_8UC1 or CV_8UC3 (BGR) picture; the same pixels always give the same bytes.
/// Throws std::invalid_argument for an empty picture or another type.
[[nodiscard]] std::vector<std::uint8_t> encode_png(const cv::Mat& picture);

/// JPEG of a CV_8UC1 or CV_8UC3 (BGR) picture, `quality` 1-100 on libjpeg's scale, colour at full resolution
/// (4:4:4) so that thin coloured lines stay clean. Throws std::invalid_argument as encode_png does, also for
/// sides over 65500 px, JPEG's limit.
[[nodiscard]] std::vector<std::uint8_t> encode_jpeg(const cv::Mat& picture, int quality);

/// Encodes and writes whole or not at all (write_file). Refusal: stage "write", code "io".
[[nodiscard]] Outcome<Written> write_png(const std::string& path, const cv::Mat& picture);
[[nodiscard]] Outcome<Written> write_jpeg(const std::string& path, const cv::Mat& picture, int quality);

}  // namespace ridgetally
