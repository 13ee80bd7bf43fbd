#pragma once

#include <opencv2/core.hpp>

#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// How the twist of a yarn changes the light on its surface.
struct SurfaceDetail {
    float slope_around = 0.0F;  ///< of the relief, per radian about the yarn, in yarn radii
    float slope_along = 0.0F;   ///< of the relief, per yarn radius along it
    float albedo = 1.0F;        ///< relative brightness
};

/// The relief and mottling of one yarn, ready for many look-ups.
class YarnSurface {
  public:
    YarnSurface(const Yarn& yarn, std::uint64_t seed);

    /// `around`: angle about the yarn, 0 towards the camera; `along`: yarn radii along it.
    [[nodiscard]] SurfaceDetail at(float around, float along) const;

  private:
    [[nodiscard]] float fibre(float around, float along, float slant) const;

    YarnMake make_;
    float plies_;
    float turn_per_radius_;
    float heather_;
    cv::Mat1f tile_;
};

}  // namespace ridgetally::synthetic
