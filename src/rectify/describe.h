#pragma once

#include "rectify/rectification.h"

namespace ridgetally {

/// Fills in what follows from pose, covariance, reference middle and reference parts: the homography, tilt,
/// distance, px per mm and their uncertainties.
void describe(Rectification& rectification);

}  // namespace ridgetally
