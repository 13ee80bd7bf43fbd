#pragma once

#include <opencv2/core.hpp>

#include "image/photo.h"

/// How the decoders make a photo's ColourOverview; not for other layers.
namespace ridgetally {

/// Long side of the annotated picture, which is drawn on the overview: it is never smaller than this where
/// the photo is not.
inline constexpr int least_overview_side_px = 1600;

/// The reduction of a photo of this size.
[[nodiscard]] int overview_reduction(const cv::Size& photo_px);

/// Overview of a whole picture, CV_8UC3.
[[nodiscard]] ColourOverview colour_overview(const cv::Mat& bgr);

/// Overview from planes of luma and of the two colour differences (ITU-T T.871, section 7), all of them
/// CV_8UC1 and upright; those of the colour differences may have fewer pixels for the same picture, each
/// centred on the luma pixels that it stands for.
[[nodiscard]] ColourOverview colour_overview(const cv::Mat& luma, const cv::Mat& blue_difference,
                                             const cv::Mat& red_difference);

}  // namespace ridgetally
