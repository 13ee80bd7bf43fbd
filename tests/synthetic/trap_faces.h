#pragma once

#include "core/random.h"
#include "synthetic/canvas.h"

namespace ridgetally::synthetic {

/// Draws the face of a thing that is no swatch on a canvas of its size. Pitches and colours are drawn from
/// `random`.
using PaintTrap = void (*)(Canvas& canvas, const Trap& trap, Random& random);

// Cloths.
void paint_weave(Canvas& canvas, const Trap& trap, Random& random);
void paint_herringbone(Canvas& canvas, const Trap& trap, Random& random);
void paint_corduroy(Canvas& canvas, const Trap& trap, Random& random);
void paint_basket(Canvas& canvas, const Trap& trap, Random& random);
void paint_checks(Canvas& canvas, const Trap& trap, Random& random);

// Walls, floors, prints.
void paint_bricks(Canvas& canvas, const Trap& trap, Random& random);
void paint_tiles(Canvas& canvas, const Trap& trap, Random& random);
void paint_honeycomb(Canvas& canvas, const Trap& trap, Random& random);
void paint_grid(Canvas& canvas, const Trap& trap, Random& random);
void paint_text_page(Canvas& canvas, const Trap& trap, Random& random);
void paint_studs(Canvas& canvas, const Trap& trap, Random& random);

// Things with marks or teeth.
void paint_keyboard(Canvas& canvas, const Trap& trap, Random& random);
void paint_piano(Canvas& canvas, const Trap& trap, Random& random);
void paint_barcode(Canvas& canvas, const Trap& trap, Random& random);
void paint_comb(Canvas& canvas, const Trap& trap, Random& random);
void paint_fence(Canvas& canvas, const Trap& trap, Random& random);
void paint_zip(Canvas& canvas, const Trap& trap, Random& random);
void paint_notebook(Canvas& canvas, const Trap& trap, Random& random);
void paint_pen_marks(Canvas& canvas, const Trap& trap, Random& random);

// Round things.
void paint_plate(Canvas& canvas, const Trap& trap, Random& random);
void paint_coin(Canvas& canvas, const Trap& trap, Random& random);
void paint_button(Canvas& canvas, const Trap& trap, Random& random);

// Evenly divided things that are no scales.
void paint_chequered_border(Canvas& canvas, const Trap& trap, Random& random);
void paint_film_strip(Canvas& canvas, const Trap& trap, Random& random);
void paint_striped_tape(Canvas& canvas, const Trap& trap, Random& random);
void paint_dominoes(Canvas& canvas, const Trap& trap, Random& random);
void paint_zebra_crossing(Canvas& canvas, const Trap& trap, Random& random);

/// A colour made lighter or darker by up to the part `by`.
[[nodiscard]] Colour varied(const Colour& colour, Random& random, double by);

}  // namespace ridgetally::synthetic
