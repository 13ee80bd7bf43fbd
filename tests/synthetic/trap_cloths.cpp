#include <cmath>
#include <numbers>

#include "synthetic/trap_faces.h"

namespace ridgetally::synthetic {
namespace {

/// A thread as wide as the box is high (or the other way round), light along its middle.
void thread(Canvas& canvas, double x0, double y0, double x1, double y1, bool along_x, const Colour& colour) {
    paint_box(canvas, x0, y0, x1, y1, colour * 0.78F, 1.0);
    const double inset = 0.28 * (along_x ? y1 - y0 : x1 - x0);
    if (along_x)
        paint_box(canvas, x0, y0 + inset, x1, y1 - inset, colour, 1.0);
    else
        paint_box(canvas, x0 + inset, y0, x1 - inset, y1, colour, 1.0);
}

}  // namespace

Colour varied(const Colour& colour, Random& random, double by) {
    return colour * static_cast<float>(random.uniform(1.0 - by, 1.0 + by));
}

/// Plain woven cloth: threads of two colours over and under.
void paint_weave(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(1.2, 4.0);
    const Colour other = varied({200, 205, 205}, random, 0.15);
    int column = 0;
    for (double x = 0.0; x < trap.width_mm; x += pitch, ++column) {
        int row = 0;
        for (double y = 0.0; y < trap.height_mm; y += pitch, ++row) {
            const Colour c = varied((column + row) % 2 == 0 ? trap.colour : other, random, 0.12);
            paint_box(canvas, x, y, x + 0.86 * pitch, y + 0.86 * pitch, c, 1.0);
        }
    }
}

/// Twill that turns back every few threads, which makes columns of Vs like knitting has.
void paint_herringbone(Canvas& canvas, const Trap& trap, Random& random) {
    const double rib = random.uniform(4.0, 9.0), high = rib * random.uniform(0.35, 0.5);
    const Colour other = varied({205, 208, 210}, random, 0.1);
    int column = 0;
    for (double x = 0.0; x < trap.width_mm; x += rib, ++column) {
        int row = 0;
        for (double y = -rib; y < trap.height_mm + rib; y += high, ++row) {
            const double left = y + (column % 2 == 0 ? 0.0 : rib), right = y + (column % 2 == 0 ? rib : 0.0);
            paint_polygon(
                canvas,
                {{x, left}, {x + rib, right}, {x + rib, right + 0.55 * high}, {x, left + 0.55 * high}},
                varied(row % 2 == 0 ? trap.colour : other, random, 0.06));
        }
    }
}

/// Cords of pile, round in the light.
void paint_corduroy(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(2.0, 5.0);
    constexpr int slices = 12;
    for (double x = 0.0; x < trap.width_mm; x += pitch)
        for (int k = 0; k < slices; ++k) {
            const double part = (k + 0.5) / slices;
            const auto light = static_cast<float>(0.35 + 0.75 * std::sin(std::numbers::pi * part));
            for (double y = 0.0; y < trap.height_mm; y += 3.0)
                paint_box(canvas, x + k * pitch / slices, y, x + (k + 1) * pitch / slices, y + 3.0,
                          varied(trap.colour * light, random, 0.05), 1.0);
        }
}

/// Strips of cane, two and two over and under.
void paint_basket(Canvas& canvas, const Trap& trap, Random& random) {
    const double cane = random.uniform(3.0, 6.0), block = 2.0 * cane;
    int column = 0;
    for (double x = 0.0; x < trap.width_mm; x += block, ++column) {
        int row = 0;
        for (double y = 0.0; y < trap.height_mm; y += block, ++row)
            for (int k = 0; k < 2; ++k) {
                const Colour c = varied(trap.colour, random, 0.12);
                const double at = k * cane;
                if ((column + row) % 2 == 0)
                    thread(canvas, x - 0.1 * cane, y + at, x + block + 0.1 * cane, y + at + 0.92 * cane, true,
                           c);
                else
                    thread(canvas, x + at, y - 0.1 * cane, x + at + 0.92 * cane, y + block + 0.1 * cane,
                           false, c);
            }
    }
}

/// Checked cloth: stripes both ways, darkest where they cross.
void paint_checks(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(5.0, 12.0);
    const Colour stripe = varied(trap.colour, random, 0.1);
    for (double x = 0.0; x < trap.width_mm; x += 2.0 * pitch)
        paint_box(canvas, x, 0.0, x + pitch, trap.height_mm, stripe, 0.55);
    for (double y = 0.0; y < trap.height_mm; y += 2.0 * pitch)
        paint_box(canvas, 0.0, y, trap.width_mm, y + pitch, stripe, 0.55);
}

}  // namespace ridgetally::synthetic
