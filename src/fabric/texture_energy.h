#pragma once

#include <opencv2/core.hpp>

#include "image/pyramid.h"

namespace ridgetally {

/// How busy the picture is at each place of an overview of `overview` size: mean absolute high-pass against
/// the square root of the brightness (photon noise grows like that, so black yarn counts as much as white).
/// CV_32FC1.
[[nodiscard]] cv::Mat texture_energy(const GreyPyramid& pyramid, cv::Size overview);

}  // namespace ridgetally
