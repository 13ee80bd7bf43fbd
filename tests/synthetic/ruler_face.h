#pragma once

#include "synthetic/canvas.h"

namespace ridgetally::synthetic {

/// The face of a ruler: x from its end along its length, y across; the upper edge is y = 0.
[[nodiscard]] Canvas ruler_face(const Ruler& ruler, double px_per_mm);

/// Distance of neighbouring marks of an edge, in mm.
[[nodiscard]] double mark_spacing_mm(const Graduation& graduation);

/// Place of mark `index` along the ruler, mm from its end.
[[nodiscard]] double mark_place_mm(const Ruler& ruler, const Graduation& graduation, int index);

/// Number of marks an edge has.
[[nodiscard]] int mark_count(const Ruler& ruler, const Graduation& graduation);

/// Length of mark `index` over the longest: 1 for whole cm or inches, shorter for each finer class.
[[nodiscard]] double mark_ratio(const Graduation& graduation, int index);

/// A point of the ruler's face (its own mm) on the table plane.
[[nodiscard]] Vec3 on_table(const Ruler& ruler, double x_mm, double y_mm);

}  // namespace ridgetally::synthetic
