#pragma once

#include <opencv2/core.hpp>

/// Colours of the annotated picture, by what they mean. The hues are from the set of M. Okabe and K. Ito,
/// Color Universal Design (2008), chosen to stay apart for all common kinds of colour vision (values from
/// memory); every line also differs by place, direction or pattern, never by colour alone. BGR.
namespace ridgetally::palette {

inline const cv::Scalar row_ridge{0, 159, 230};      ///< orange
inline const cv::Scalar stitch_ridge{233, 180, 86};  ///< sky blue
inline const cv::Scalar outline{255, 255, 255};      ///< white
inline const cv::Scalar ruler_mark{178, 114, 0};     ///< blue
inline const cv::Scalar casing{24, 20, 16};  ///< dark edge of light lines, so that they show on any yarn
inline const cv::Scalar light_casing{255, 255, 255};  ///< light edge of dark lines
inline const cv::Scalar panel{36, 30, 26};            ///< ground of the caption
inline const cv::Scalar panel_text{250, 250, 250};
inline const cv::Scalar panel_quiet_text{205, 200, 196};
inline const cv::Scalar panel_warning{66, 228, 240};

}  // namespace ridgetally::palette
