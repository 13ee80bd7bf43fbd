#pragma once

#include <cstddef>
#include <cstdint>
#include <opencv2/core.hpp>
#include <optional>
#include <span>
#include <string>

#include "core/outcome.h"
#include "image/pyramid.h"

namespace ridgetally {

/// The colours of a photo, reduced by a whole number: pixel (i, j) is the mean of `reduction` x `reduction`
/// photo pixels from (i * reduction, j * reduction) on. What is left over at the right and lower edge is
/// dropped.
struct ColourOverview {
    cv::Mat bgr;  ///< CV_8UC3
    int reduction = 1;

    /// Where a point of the photo lies in the overview, and back; origins at the centre of the first pixel.
    [[nodiscard]] cv::Point2d from_photo(const cv::Point2d& photo_px) const {
        return {(photo_px.x + 0.5) / reduction - 0.5, (photo_px.y + 0.5) / reduction - 0.5};
    }
    [[nodiscard]] cv::Point2d in_photo(const cv::Point2d& overview_px) const {
        return {(overview_px.x + 0.5) * reduction - 0.5, (overview_px.y + 0.5) * reduction - 0.5};
    }
};

/// A decoded photo, upright (EXIF orientation applied). Pixel (0, 0) is the top left as the maker sees it.
/// Marks, edges and stitches are measured in the luma; colour tells fabric, table and ruler apart and needs
/// no more pixels than a screen: a quarter of the memory, and no pass over every pixel in three channels.
struct Photo {
    cv::Mat grey;         ///< CV_8UC1, luma (ITU-R BT.601), every pixel
    GreyPyramid pyramid;  ///< of `grey`, for whoever needs fewer pixels
    ColourOverview colour;
    std::optional<double> focal_length_35mm;  ///< EXIF FocalLengthIn35mmFilm, mm on a 36 mm wide frame
    std::string file;                         ///< as the user gave it
    std::string sha256;                       ///< of the file's bytes, lower-case hex
};

/// A photo of pixels that are in memory already. `bgr` is CV_8UC3, upright.
[[nodiscard]] Photo photo_from_pixels(const cv::Mat& bgr);

/// What read_photo accepts. Sizes are checked against the file's header, before pixels are allocated.
struct ReadPhotoOptions {
    /// Below this a 10 cm span of common yarn (20 stitches across a third of the frame) has under 10 px a
    /// stitch: 0.3 megapixels is 640 x 480.
    double min_megapixels = 0.3;
    /// The same limit for long thin pictures: 20 stitches across need 10 px each.
    int min_side_px = 200;
    /// Phones reach 50 megapixels, some 108; anything above is a picture made to fill the memory.
    double max_megapixels = 120.0;
    /// OpenCV's resampling counts pixels in 16 bits (cv::remap: sides under 32767).
    int max_side_px = 32000;
    /// 50 megapixels as 16-bit RGB PNG hardly compress: 300 MB. Twice that is no photo.
    std::size_t max_file_bytes = std::size_t{600} * 1000 * 1000;
};

/// Reads and decodes a photo file: JPEG, PNG, HEIC/HEIF or WebP, told apart by their first bytes, not the
/// name. Colours are taken as sRGB (an embedded profile is not applied); transparent parts are laid on white.
///
/// Refusals have stage "photo" and do not name the file in their message. Codes:
///   no-input           the file is not there, is a directory or may not be read
///   io                 reading failed half-way
///   not-a-photo        empty, or none of the formats above
///   unsupported-photo  one of the formats above, but of a kind that is not read (animation, 12-bit JPEG,
///   ...) damaged-photo      cut off or corrupt; never half a picture too-small, too-large   outside the
///   limits of `options`
[[nodiscard]] Outcome<Photo> read_photo(const std::string& path, const ReadPhotoOptions& options = {});

/// The same for the bytes of a file already in memory; `name` becomes Photo::file.
[[nodiscard]] Outcome<Photo> decode_photo(std::span<const std::uint8_t> bytes, const std::string& name,
                                          const ReadPhotoOptions& options = {});

/// Focal length in pixels of the upright photo from the 35 mm equivalent: EXIF 2.32 (CIPA DC-008) defines it
/// by the diagonal of a 36 x 24 mm frame, so f_px = f35 * diagonal_px / 43.267 mm. None without EXIF.
[[nodiscard]] std::optional<double> focal_length_px(const Photo& photo);

}  // namespace ridgetally
