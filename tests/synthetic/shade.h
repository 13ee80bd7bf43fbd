#pragma once

#include <opencv2/core.hpp>

#include "synthetic/surfaces.h"
#include "synthetic/tubes.h"

namespace ridgetally::synthetic {

/// Writes the heights of the yarn into the surfaces, so that it throws shadows and hides what is beneath.
void lay_tubes(Surfaces& surfaces, const TubeLayer& layer);

/// Light on everything: sun and sky, cast shadows, darkness in the hollows, a reflected lamp on shiny things.
/// Gives the pinhole picture at photo resolution as linear light, 1 = white paper, averaged over the samples.
[[nodiscard]] cv::Mat3f shaded(const Scene& scene, const Projector& projector, const Surfaces& surfaces,
                               const TubeLayer& layer, const std::vector<Tube>& tubes);

}  // namespace ridgetally::synthetic
