#include "synthetic/traps.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "synthetic/trap_faces.h"

namespace ridgetally::synthetic {
namespace {

/// What lies under the paint of a thing: a body of one colour, or nothing where only the painted parts are
/// solid.
enum class Body { own_colour, dark, paper, mortar, cut_out };

struct Face {
    TrapMake make;
    PaintTrap paint;
    Body body;
    double thickness_mm;
};

constexpr std::array faces{Face{TrapMake::weave, paint_weave, Body::own_colour, 0.8},
                           Face{TrapMake::herringbone, paint_herringbone, Body::own_colour, 0.8},
                           Face{TrapMake::corduroy, paint_corduroy, Body::own_colour, 1.2},
                           Face{TrapMake::basket, paint_basket, Body::dark, 2.5},
                           Face{TrapMake::checks, paint_checks, Body::paper, 0.5},
                           Face{TrapMake::bricks, paint_bricks, Body::mortar, 0.0},
                           Face{TrapMake::tiles, paint_tiles, Body::mortar, 0.0},
                           Face{TrapMake::honeycomb, paint_honeycomb, Body::mortar, 0.0},
                           Face{TrapMake::grid, paint_grid, Body::paper, 0.1},
                           Face{TrapMake::text, paint_text_page, Body::paper, 0.1},
                           Face{TrapMake::studs, paint_studs, Body::own_colour, 3.0},
                           Face{TrapMake::keyboard, paint_keyboard, Body::dark, 8.0},
                           Face{TrapMake::piano, paint_piano, Body::dark, 8.0},
                           Face{TrapMake::barcode, paint_barcode, Body::paper, 0.1},
                           Face{TrapMake::comb, paint_comb, Body::cut_out, 1.0},
                           Face{TrapMake::fence, paint_fence, Body::cut_out, 1.5},
                           Face{TrapMake::zip, paint_zip, Body::own_colour, 1.5},
                           Face{TrapMake::notebook, paint_notebook, Body::paper, 4.0},
                           Face{TrapMake::pen_marks, paint_pen_marks, Body::paper, 0.1},
                           Face{TrapMake::plate, paint_plate, Body::cut_out, 1.0},
                           Face{TrapMake::coin, paint_coin, Body::cut_out, 1.0},
                           Face{TrapMake::button, paint_button, Body::cut_out, 1.0},
                           Face{TrapMake::chequered_border, paint_chequered_border, Body::cut_out, 0.3},
                           Face{TrapMake::film_strip, paint_film_strip, Body::dark, 0.2},
                           Face{TrapMake::striped_tape, paint_striped_tape, Body::own_colour, 0.2},
                           Face{TrapMake::dominoes, paint_dominoes, Body::cut_out, 3.0},
                           Face{TrapMake::zebra_crossing, paint_zebra_crossing, Body::dark, 0.1}};

Colour body_colour(Body body, const Trap& trap) {
    switch (body) {
        case Body::dark:
            return {30, 30, 30};
        case Body::paper:
            return {240, 240, 240};
        case Body::mortar:
            return {160, 165, 170};
        case Body::own_colour:
            return trap.colour * 0.7F;
        case Body::cut_out:
            break;
    }
    return trap.colour;
}

/// What lies outside the largest circle is cut away.
void cut_round(Canvas& canvas) {
    const double x0 = 0.5 * canvas.width_mm(), y0 = 0.5 * canvas.height_mm();
    const double radius = std::min(x0, y0);
    for (int row = 0; row < canvas.pixels.rows; ++row)
        for (int column = 0; column < canvas.pixels.cols; ++column) {
            const double x = (column + 0.5) / canvas.px_per_mm, y = (row + 0.5) / canvas.px_per_mm;
            if (std::hypot(x - x0, y - y0) > radius) canvas.pixels(row, column)[3] = 0;
        }
}

}  // namespace

void lay_trap(Surfaces& surfaces, const Scene& scene, const Trap& trap, const Projector& projector) {
    const auto* face =
        std::find_if(faces.begin(), faces.end(), [&](const Face& f) { return f.make == trap.make; });
    if (face == faces.end()) return;  // made of tubes alone
    Random random(trap.seed * 5 + 1);
    const double scale = 1.1 * projector.focal_px() / scene.camera.distance_mm * scene.supersampling;
    const Colour body = body_colour(face->body, trap);
    const bool solid = face->body != Body::cut_out;
    Canvas canvas =
        blank_canvas(trap.width_mm, trap.height_mm, std::clamp(scale, 4.0, 30.0), body, solid ? 255 : 0);
    face->paint(canvas, trap, random);
    const bool round = trap.outline == TrapOutline::round;
    if (round) cut_round(canvas);
    Slab slab;
    slab.table_from_canvas =
        centred_frame(trap.centre_x_mm, trap.centre_y_mm, trap.angle_deg, trap.width_mm, trap.height_mm);
    slab.thickness_mm = face->thickness_mm;
    slab.gloss = 0.15;
    slab.sides = solid && !round && face->thickness_mm > 0.3 ? Sides::box : Sides::none;
    slab.side = body * 0.6F;
    lay_slab(surfaces, canvas, slab, projector, scene.supersampling);
}

}  // namespace ridgetally::synthetic
