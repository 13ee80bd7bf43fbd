#pragma once

#include "image/photo.h"
#include "scale/flat/quad.h"

namespace ridgetally {

/// Nearest and farthest a phone is held for such a photo (from the focus limit to an arm's length above a
/// table), which bounds the size at which an object is seen.
inline constexpr double nearest_mm = 100.0;
inline constexpr double farthest_mm = 1000.0;

/// Focal length and principal point of the upright photo; a main camera of 26 mm equivalent where the photo
/// does not tell (common practice, no source).
[[nodiscard]] ViewPriors view_priors(const Photo& photo);

/// The same for the photo reduced by `scale`, and a point of it back in the photo: pixel centres stay pixel
/// centres.
[[nodiscard]] ViewPriors scaled_view(const ViewPriors& view, double scale);
[[nodiscard]] cv::Point2d unscaled(const cv::Point2d& p, double scale);

/// A photo as it is searched for a flat thing: found on the small picture, followed to a twentieth of a pixel
/// over hundreds of pixels on the overview, which is enough.
struct FlatSearch {
    cv::Mat bgr;      ///< the photo's colour overview
    ViewPriors view;  ///< of it
    /// `bgr` with a long side of 1000 px: straight edges of a card that fills a fifth of the frame are then
    /// 200 px long, and a 12 megapixel photo takes no longer than a small one.
    cv::Mat small_bgr;
    double scale = 1.0;  ///< of the small picture over the overview
};
[[nodiscard]] FlatSearch flat_search(const Photo& photo);

}  // namespace ridgetally
