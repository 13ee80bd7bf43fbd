#pragma once

#include <opencv2/core.hpp>

#include "catalog/catalog.h"
#include "pipeline/swatch_result.h"
#include "report/terms.h"

namespace ridgetally {

/// The verdict as a panel to lie above the photo: gauge over 10 cm and over 4 in with plus-or-minus, what was
/// counted, what the line colours mean, and the warnings. `width_px` wide, as high as it needs; letters grow
/// with the width.
[[nodiscard]] cv::Mat swatch_caption(const SwatchResult& result, const Catalog& catalog, int width_px,
                                     Terms terms);

/// The same for a ruler read alone.
[[nodiscard]] cv::Mat scale_caption(const ScaleReport& report, const Catalog& catalog, int width_px);

}  // namespace ridgetally
