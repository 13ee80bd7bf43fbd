#pragma once

#include <opencv2/core.hpp>

#include "synthetic/tubes.h"

namespace ridgetally::synthetic {

/// Draws the stray fibres of the yarns over the picture (linear light, photo resolution).
void draw_hairs(cv::Mat3f& light, const Scene& scene, const Projector& projector,
                const std::vector<Tube>& tubes);

}  // namespace ridgetally::synthetic
