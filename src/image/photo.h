#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <string>

namespace ridgetally {

/// A decoded photo, upright. Pixel (0, 0) is the top left as the maker sees it.
struct Photo {
    cv::Mat bgr;                              ///< CV_8UC3, EXIF orientation applied
    std::optional<double> focal_length_35mm;  ///< EXIF FocalLengthIn35mmFilm, mm on a 36 mm wide frame
    std::string file;                         ///< as the user gave it
    std::string sha256;                       ///< of the file's bytes, lower-case hex
};

/// Focal length in pixels of the upright photo from the 35 mm equivalent: EXIF 2.32 (CIPA DC-008) defines it
/// by the diagonal of a 36 x 24 mm frame, so f_px = f35 * diagonal_px / 43.267 mm. None without EXIF.
[[nodiscard]] std::optional<double> focal_length_px(const Photo& photo);

}  // namespace ridgetally
