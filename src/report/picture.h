#pragma once

#include <opencv2/core.hpp>

#include "catalog/catalog.h"
#include "pipeline/swatch_result.h"
#include "report/terms.h"

namespace ridgetally {

struct PictureOptions {
    Terms terms = Terms::us;
    int long_side_px = 1600;  ///< of the photo part: twice a phone's screen, and light enough to send
};

/// The photo (or any reduction of it; the result knows the full width) with the marks that were read, the
/// measured area, every row and stitch ridge, and the verdict in a panel above. CV_8UC3. Throws
/// std::invalid_argument for an empty picture or one that is not CV_8UC3.
[[nodiscard]] cv::Mat annotated_picture(const cv::Mat& photo_bgr, const SwatchResult& result,
                                        const Catalog& catalog, const PictureOptions& options = {});

/// The same for a ruler read alone.
[[nodiscard]] cv::Mat annotated_picture(const cv::Mat& photo_bgr, const ScaleReport& report,
                                        const Catalog& catalog, const PictureOptions& options = {});

}  // namespace ridgetally
