#pragma once

#include <opencv2/core.hpp>

#include "synthetic/canvas.h"
#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// What the camera sees before light falls on it, in supersampled pixels of the pinhole picture.
struct Surfaces {
    cv::Mat3b colour;
    cv::Mat1f height_mm;  ///< above the table
    cv::Mat1b gloss;      ///< 0 matt .. 255 mirror-like
};

/// The bare table.
[[nodiscard]] Surfaces table_surface(const Scene& scene, const Projector& projector);

/// Whether a thing is a box with sides of its own, or throws its shadow only (sheets, cut-outs, clear
/// plastic).
enum class Sides { box, none };

/// A flat thing with a face. `table_from_canvas` places it: mm of the canvas to mm of the table.
struct Slab {
    cv::Matx23d table_from_canvas;
    double base_mm = 0.0;  ///< underside
    double thickness_mm = 0.0;
    double gloss = 0.0;  ///< 0..1
    Sides sides = Sides::none;
    Colour side{120, 120, 120};
    double shadow_height = 1.0;  ///< part of the thickness that throws a shadow (clear things: little)
};

/// Lays a slab on the surfaces.
void lay_slab(Surfaces& surfaces, const Canvas& face, const Slab& slab, const Projector& projector,
              int supersampling);

/// The canvas frame of something centred at a place and turned by an angle.
[[nodiscard]] cv::Matx23d centred_frame(double x_mm, double y_mm, double angle_deg, double width_mm,
                                        double height_mm);

}  // namespace ridgetally::synthetic
