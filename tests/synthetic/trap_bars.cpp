#include "synthetic/trap_faces.h"

namespace ridgetally::synthetic {
namespace {

const Colour black{30, 30, 30};
const Colour white{235, 238, 240};

}  // namespace

/// Two rows of squares, black beside white.
void paint_chequered_border(Canvas& canvas, const Trap& trap, Random& random) {
    const double side = random.uniform(6.0, 12.0);
    for (int row = 0; row < 2; ++row)
        for (int i = 0; i * side < trap.width_mm; ++i)
            paint_box(canvas, i * side, row * side, (i + 1) * side, (row + 1) * side,
                      (i + row) % 2 == 0 ? black : white, 1.0);
}

/// A film of 35 mm: eight perforations to a picture of 38 mm on both edges (from memory).
void paint_film_strip(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = 4.75, hole_wide = 2.0, hole_high = 2.8, picture = 8.0 * pitch;
    for (double x = 0.5 * pitch; x < trap.width_mm; x += pitch)
        for (const double y : {2.0, trap.height_mm - 2.0 - hole_high})
            paint_box(canvas, x - 0.5 * hole_wide, y, x + 0.5 * hole_wide, y + hole_high, white, 1.0);
    for (double x = 1.0; x < trap.width_mm; x += picture)
        paint_box(canvas, x, 6.0, x + picture - 2.0, trap.height_mm - 6.0, varied(trap.colour, random, 0.5),
                  1.0);
}

/// Slanting stripes.
void paint_striped_tape(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(8.0, 22.0), h = trap.height_mm;
    for (double x = -h; x < trap.width_mm; x += pitch)
        paint_polygon(canvas, {{x, h}, {x + h, 0.0}, {x + h + 0.5 * pitch, 0.0}, {x + 0.5 * pitch, h}},
                      black);
}

/// Tiles in a row, each with a bar across its middle and pips on both halves.
void paint_dominoes(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(14.0, 20.0), gap = 1.0, half = 0.5 * trap.height_mm;
    for (double x = 0.0; x + pitch <= trap.width_mm; x += pitch) {
        paint_box(canvas, x, 0.0, x + pitch - gap, trap.height_mm, varied(white, random, 0.05), 1.0);
        paint_box(canvas, x + 1.5, half - 0.3, x + pitch - gap - 1.5, half + 0.3, black, 1.0);
        for (const double y : {0.0, half})
            for (int pips = random.whole(0, 6), i = 0; i < pips; ++i)
                paint_disc(canvas, x + (0.25 + 0.5 * (i % 2)) * (pitch - gap),
                           y + (0.2 + 0.3 * (i / 2)) * half, 0.08 * half + 0.5, black);
    }
}

/// Broad bars of equal tone and equal gaps.
void paint_zebra_crossing(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(9.0, 20.0);
    for (double x = 0.0; x < trap.width_mm; x += pitch)
        paint_box(canvas, x, 1.0, x + 0.5 * pitch, trap.height_mm - 1.0, varied(white, random, 0.04), 1.0);
}

}  // namespace ridgetally::synthetic
