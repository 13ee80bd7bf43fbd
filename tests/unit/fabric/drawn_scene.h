#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry.h"
#include "image/photo.h"

namespace ridgetally::test {

/// A flat scene: what a stage sees of it must not depend on how real yarn looks.
struct DrawnScene {
    cv::Size size_px{1200, 900};
    cv::Rect fabric{350, 200, 420, 400};
    cv::Scalar fabric_bgr{60, 120, 200};
    cv::Scalar table_bgr{150, 140, 130};
    double table_grain = 3.0;  ///< standard deviation, grey levels
    cv::Rect ruler;            ///< white; empty: none
    cv::Rect burnt_out;        ///< of the table: white without grain; empty: none
    cv::Rect tail_loop;        ///< around which a tail of yarn lies, 14 px thick; empty: none
};

/// Fabric is drawn as a net of dark gaps 14 px apart on its colour.
[[nodiscard]] Photo drawn(const DrawnScene& scene);

/// CV_8UC1 of `size`, 255 in `part`.
[[nodiscard]] cv::Mat mask_of(cv::Size size, const cv::Rect& part);

/// A rectangle's corners.
[[nodiscard]] std::vector<PhotoPoint> corners_of(const cv::Rect& part);

}  // namespace ridgetally::test
