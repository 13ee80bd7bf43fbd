#include "synthetic/yarn_surface.h"

#include <cmath>
#include <numbers>

#include "synthetic/noise.h"

namespace ridgetally::synthetic {
namespace {

constexpr auto pi_f = std::numbers::pi_v<float>;

/// Round ridges with a sharp groove between: |cos(x/2)| and its slope. Period 2 pi.
struct Ridge {
    float height, slope;
};

Ridge ridge(float x) {
    const float c = std::cos(0.5F * x), s = std::sin(0.5F * x);
    return {std::abs(c), (c < 0.0F ? 0.5F : -0.5F) * s};
}

}  // namespace

YarnSurface::YarnSurface(const Yarn& yarn, std::uint64_t seed)
    : make_(yarn.make),
      plies_(static_cast<float>(yarn.plies)),
      turn_per_radius_(pi_f / static_cast<float>(yarn.lay_diameters)),
      heather_(static_cast<float>(yarn.heather)),
      tile_(fractal_tile(256, 32, 32, 3, seed * 3 + 2)) {}

float YarnSurface::fibre(float around, float along, float slant) const {
    return tile_at(tile_, 10.0F * (along + slant * around), 34.0F * (around - 0.5F * along * slant));
}

SurfaceDetail YarnSurface::at(float around, float along) const {
    SurfaceDetail d;
    if (make_ == YarnMake::cord) {  // a knitted cord shows small Vs along its length
        const float side = around < 0.0F ? -1.0F : 1.0F;
        const Ridge v = ridge(2.0F * pi_f * along / 0.62F + side * around * 3.2F);
        const Ridge middle = ridge(around * 4.0F + pi_f);
        d.slope_around = 0.10F * (v.slope * side * 3.2F + 0.3F * middle.slope * 4.0F);
        d.slope_along = 0.10F * v.slope * 2.0F * pi_f / 0.62F * 0.4F;
        d.albedo = 0.78F + 0.22F * v.height;
    } else if (make_ == YarnMake::plied) {
        const Ridge r = ridge(plies_ * (around + turn_per_radius_ * along));
        d.slope_around = 0.26F * r.slope * plies_;
        d.slope_along = 0.26F * r.slope * plies_ * turn_per_radius_;
        d.albedo = 0.62F + 0.38F * std::sqrt(r.height);
    } else {
        const Ridge r = ridge(around * 2.0F + 0.5F * along);
        d.slope_around = 0.08F * r.slope;
        d.albedo = 0.92F + 0.08F * r.height;
    }
    d.albedo *= 1.0F + (0.10F + heather_) * fibre(around, along, make_ == YarnMake::plied ? 0.9F : 0.2F);
    return d;
}

}  // namespace ridgetally::synthetic
