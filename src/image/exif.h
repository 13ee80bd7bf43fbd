#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "image/orientation.h"

namespace ridgetally {

/// What the program uses of EXIF.
struct ExifFacts {
    Orientation orientation = Orientation::top_left;
    std::optional<double> focal_length_35mm;  ///< mm; none where absent or 0, the standard's "unknown"
    std::optional<double> width_px;   ///< PixelXDimension of the stored picture, as the camera took it
    std::optional<double> height_px;  ///< PixelYDimension
};

/// Reads an EXIF block, with or without the leading "Exif\0\0" (CIPA DC-008, 4.7.2). What is broken or out of
/// range is left at its default: bad EXIF does not spoil the pixels.
[[nodiscard]] ExifFacts read_exif(std::span<const std::uint8_t> block);

/// The focal length where it still holds for a stored picture of this size. A picture whose sides have
/// another ratio than the camera's (by over 1 %, rounding of small copies is below) was cropped: none.
[[nodiscard]] std::optional<double> focal_length_of_whole_frame(const ExifFacts& facts, double width_px,
                                                                double height_px);

}  // namespace ridgetally
