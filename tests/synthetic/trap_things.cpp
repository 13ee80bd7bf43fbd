#include <algorithm>
#include <cmath>
#include <numbers>

#include "synthetic/trap_faces.h"

namespace ridgetally::synthetic {
namespace {

void round_thing(Canvas& canvas, const Trap& trap, const Colour& body, const Colour& rim) {
    const double r = 0.5 * std::min(trap.width_mm, trap.height_mm), x = 0.5 * trap.width_mm,
                 y = 0.5 * trap.height_mm;
    paint_disc(canvas, x, y, r - 0.2, rim);
    paint_disc(canvas, x, y, 0.92 * r, body);
    paint_disc(canvas, x, y, 0.66 * r, rim);
    paint_disc(canvas, x, y, 0.64 * r, body);
}

}  // namespace

void paint_keyboard(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(15.0, 19.0), key = pitch - 2.5;
    int row = 0;
    for (double y = 2.0; y + key < trap.height_mm; y += pitch, ++row)
        for (double x = 2.0 + 0.25 * pitch * row; x + key < trap.width_mm; x += pitch) {
            paint_box(canvas, x, y, x + key, y + key, varied({60, 58, 56}, random, 0.1), 1.0);
            paint_text(canvas, std::string(1, static_cast<char>('A' + random.whole(0, 25))), x + 0.35 * key,
                       y + 0.4 * key, 3.5, {220, 220, 220}, Upright::up, 0);
        }
}

/// White keys with gaps, black ones in groups of two and three.
void paint_piano(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(5.0, 9.0);
    int key = 0;
    for (double x = 1.0; x < trap.width_mm - pitch; x += pitch, ++key) {
        paint_box(canvas, x, 1.0, x + 0.93 * pitch, trap.height_mm - 1.0, {238, 240, 242}, 1.0);
        paint_box(canvas, x, trap.height_mm - 3.0, x + 0.93 * pitch, trap.height_mm - 1.0, {190, 195, 198},
                  1.0);
    }
    for (int k = 0; k + 1 < key; ++k)
        if (const int note = k % 7; note != 2 && note != 6) {
            const double x = 1.0 + (k + 0.68) * pitch;
            paint_box(canvas, x, 1.0, x + 0.58 * pitch, 0.62 * trap.height_mm, {30, 28, 28}, 1.0);
        }
}

void paint_barcode(Canvas& canvas, const Trap& trap, Random& random) {
    double x = 4.0;
    while (x < trap.width_mm - 4.0) {
        const double module = 0.4 * random.whole(1, 4);
        paint_box(canvas, x, 3.0, x + module, trap.height_mm - 6.0, {20, 20, 20}, 1.0);
        x += module + 0.4 * random.whole(1, 4);
    }
}

void paint_comb(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(1.5, 2.6);
    paint_box(canvas, 0.0, 0.0, trap.width_mm, 0.35 * trap.height_mm, trap.colour, 1.0);
    for (double x = 3.0; x < trap.width_mm - 3.0; x += pitch)
        paint_box(canvas, x, 0.35 * trap.height_mm, x + 0.6 * pitch, trap.height_mm, trap.colour, 1.0);
}

/// Pickets on two rails.
void paint_fence(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(6.0, 12.0), wide = 0.6 * pitch;
    for (const double rail : {0.25, 0.7})
        paint_box(canvas, 0.0, rail * trap.height_mm, trap.width_mm, (rail + 0.09) * trap.height_mm,
                  trap.colour * 0.8F, 1.0);
    for (double x = 1.0; x + wide < trap.width_mm; x += pitch)
        paint_polygon(canvas,
                      {{x, trap.height_mm - 0.5},
                       {x, 0.6 * wide},
                       {x + 0.5 * wide, 0.5},
                       {x + wide, 0.6 * wide},
                       {x + wide, trap.height_mm - 0.5}},
                      varied(trap.colour, random, 0.06));
}

void paint_zip(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(1.5, 2.5), middle = 0.5 * trap.height_mm;
    for (double x = 0.0; x < trap.width_mm; x += pitch) {
        paint_box(canvas, x, middle - 2.6, x + 0.62 * pitch, middle + 0.5, {150, 165, 170}, 1.0);
        paint_box(canvas, x + 0.5 * pitch, middle - 0.5, x + 1.12 * pitch, middle + 2.6, {140, 155, 165},
                  1.0);
    }
}

/// A writing pad: ruled lines, a margin, a wire binding through holes.
void paint_notebook(Canvas& canvas, const Trap& trap, Random& random) {
    const double line = random.uniform(6.0, 8.5), hole = random.uniform(5.0, 8.5);
    for (double y = 16.0; y < trap.height_mm; y += line)
        paint_box(canvas, 0.0, y, trap.width_mm, y + 0.3, {200, 160, 140}, 0.9);
    paint_box(canvas, 22.0, 0.0, 22.4, trap.height_mm, {120, 120, 220}, 0.9);
    for (double x = 4.0; x < trap.width_mm - 3.0; x += hole) {
        paint_disc(canvas, x, 6.0, 0.28 * hole, {60, 60, 60});
        paint_box(canvas, x - 0.12 * hole, 0.5, x + 0.12 * hole, 6.5, {140, 145, 150}, 1.0);
    }
}

/// A ruler as one would draw it with a pen: centimetres by guess, numbers beside them.
void paint_pen_marks(Canvas& canvas, const Trap& trap, Random& random) {
    const Colour ink{120, 40, 30};
    paint_box(canvas, 2.0, 3.0, trap.width_mm - 2.0, 3.5, ink, 1.0);
    int number = 0;
    for (double x = 4.0; x < trap.width_mm - 4.0; x += random.uniform(7.5, 12.5), ++number) {
        const double lean = random.normal(0.0, 0.5), tall = random.uniform(5.0, 7.5);
        paint_polygon(canvas,
                      {{x, 3.0}, {x + 0.6, 3.0}, {x + 0.6 + lean, 3.0 + tall}, {x + lean, 3.0 + tall}}, ink);
        paint_text(canvas, std::to_string(number), x + 0.4 * lean, 13.0, 3.6, ink, Upright::up, 0);
    }
}

void paint_plate(Canvas& canvas, const Trap& trap, Random&) {
    round_thing(canvas, trap, {225, 230, 230}, {190, 170, 150});
}

void paint_coin(Canvas& canvas, const Trap& trap, Random&) {
    round_thing(canvas, trap, {110, 160, 185}, {80, 120, 150});
}

void paint_button(Canvas& canvas, const Trap& trap, Random&) {
    round_thing(canvas, trap, trap.colour, trap.colour * 0.7F);
    const double r = 0.5 * std::min(trap.width_mm, trap.height_mm);
    for (int k = 0; k < 4; ++k) {
        const double a = (k + 0.5) * std::numbers::pi / 2.0;
        paint_disc(canvas, 0.5 * trap.width_mm + 0.25 * r * std::cos(a),
                   0.5 * trap.height_mm + 0.25 * r * std::sin(a), 0.09 * r, {20, 20, 20});
    }
}

}  // namespace ridgetally::synthetic
