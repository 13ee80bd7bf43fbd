#pragma once

#include <opencv2/core.hpp>

#include "pipeline/crown_result.h"
#include "report/picture.h"

namespace ridgetally {

/// The photo (or any reduction of it) with the marks that were read, the edge (where it is hidden, dashed by
/// leaving it out), two diameters, every round with its number, every stitch of the last round with each
/// fifth numbered, and the verdict in a panel above. CV_8UC3. Throws std::invalid_argument as
/// annotated_picture does.
[[nodiscard]] cv::Mat crown_picture(const cv::Mat& photo_bgr, const CrownResult& result,
                                    const Catalog& catalog, const PictureOptions& options = {});

}  // namespace ridgetally
