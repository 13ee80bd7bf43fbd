#pragma once

#include <cstddef>
#include <opencv2/core.hpp>
#include <string>

#include "core/outcome.h"
#include "image/file_bytes.h"

namespace ridgetally {

/// Whether the name ends in .jpg, .jpeg or .png, in capitals or not.
[[nodiscard]] bool is_picture_name(const std::string& file);

/// Writes a picture in the format its name ends in. Refusal: stage "write", code "io".
/// Throws std::invalid_argument where is_picture_name is false.
[[nodiscard]] Outcome<Written> write_picture(const std::string& file, const cv::Mat& picture);

/// Makes the folder and those above it. Refusal: stage "write", code "io".
[[nodiscard]] Outcome<Written> make_folder(const std::string& folder);

/// "0007-harbour-mat": a name for what belongs to the photo at `index` (from 0) of many, unique and sorted as
/// the photos are.
[[nodiscard]] std::string numbered_stem(std::size_t index, const std::string& file);

}  // namespace ridgetally
