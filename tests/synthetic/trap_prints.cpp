#include <cmath>
#include <numbers>

#include "synthetic/trap_faces.h"

namespace ridgetally::synthetic {

void paint_bricks(Canvas& canvas, const Trap& trap, Random& random) {
    const double wide = random.uniform(10.0, 30.0), high = wide * 0.35;
    int row = 0;
    for (double y = 0.0; y < trap.height_mm; y += high, ++row)
        for (double x = row % 2 == 0 ? 0.0 : -0.5 * wide; x < trap.width_mm; x += wide)
            paint_box(canvas, x + 0.4, y + 0.4, x + wide - 0.4, y + high - 0.4,
                      varied({70, 85, 165}, random, 0.25), 1.0);
}

/// Square tiles with a lit and a dark edge.
void paint_tiles(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(9.0, 22.0), joint = 0.09 * pitch;
    for (double y = 0.0; y < trap.height_mm; y += pitch)
        for (double x = 0.0; x < trap.width_mm; x += pitch) {
            const Colour c = varied(trap.colour, random, 0.07);
            paint_box(canvas, x, y, x + pitch - joint, y + pitch - joint, c * 0.75F, 1.0);
            paint_box(canvas, x, y, x + pitch - 1.6 * joint, y + pitch - 1.6 * joint, c, 1.0);
        }
}

/// Six-sided tiles.
void paint_honeycomb(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(6.0, 14.0), side = 0.53 * pitch;
    int row = 0;
    for (double y = 0.0; y < trap.height_mm + pitch; y += 0.866 * pitch, ++row)
        for (double x = row % 2 == 0 ? 0.0 : 0.5 * pitch; x < trap.width_mm + pitch; x += pitch) {
            std::vector<cv::Point2d> outline;
            for (int k = 0; k < 6; ++k) {
                const double a = (k + 0.5) * std::numbers::pi / 3.0;
                outline.emplace_back(x + side * std::cos(a), y + side * std::sin(a));
            }
            paint_polygon(canvas, outline, varied(trap.colour, random, 0.1));
        }
}

/// Squared paper.
void paint_grid(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(3.0, 6.0);
    for (double x = 0.0; x < trap.width_mm; x += pitch)
        paint_box(canvas, x, 0.0, x + 0.2, trap.height_mm, {190, 150, 120}, 0.9);
    for (double y = 0.0; y < trap.height_mm; y += pitch)
        paint_box(canvas, 0.0, y, trap.width_mm, y + 0.2, {190, 150, 120}, 0.9);
}

/// A printed page: words of drawn letters, lines of even height.
void paint_text_page(Canvas& canvas, const Trap& trap, Random& random) {
    const double height = random.uniform(1.6, 3.2), line = 2.1 * height;
    for (double y = 2.0 * line; y < trap.height_mm - line; y += line)
        for (double x = 2.0 * line; x < trap.width_mm - 3.0 * line;) {
            std::string word;
            for (int left = random.whole(2, 8); left > 0; --left)
                word += static_cast<char>('a' + random.whole(0, 25));
            const double wide = 0.85 * height * static_cast<double>(word.size());
            paint_text(canvas, word, x + 0.5 * wide, y, height, {40, 40, 40}, Upright::up, 0);
            x += wide + 0.9 * height;
        }
}

/// A building plate: round studs in rows, each with its shadow and light.
void paint_studs(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(5.0, 10.0), radius = 0.31 * pitch;
    for (double y = 0.5 * pitch; y < trap.height_mm; y += pitch)
        for (double x = 0.5 * pitch; x < trap.width_mm; x += pitch) {
            paint_disc(canvas, x + 0.1 * pitch, y + 0.1 * pitch, radius, trap.colour * 0.6F);
            paint_disc(canvas, x, y, radius, trap.colour * 1.12F);
            paint_disc(canvas, x, y, 0.8 * radius, varied(trap.colour, random, 0.03));
        }
}

}  // namespace ridgetally::synthetic
