#pragma once

#include <opencv2/core.hpp>

#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// Lens and sensor: distortion, blur, vignette, noise, the sRGB curve and the phone's sharpening.
[[nodiscard]] cv::Mat3b developed(const Scene& scene, const Projector& projector, cv::Mat3f light);

}  // namespace ridgetally::synthetic
