#include "synthetic/traps.h"

#include <cmath>

#include "core/random.h"
#include "core/units.h"

namespace ridgetally::synthetic {
namespace {

constexpr double pi = 3.14159265358979323846;

Colour varied(const Colour& c, Random& random, double by) {
    const auto k = static_cast<float>(random.uniform(1.0 - by, 1.0 + by));
    return {c[0] * k, c[1] * k, c[2] * k};
}

/// Plain woven cloth: threads of two colours over and under.
void weave(Canvas& canvas, const Trap& trap, Random& random) {
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

void bricks(Canvas& canvas, const Trap& trap, Random& random) {
    const double wide = random.uniform(10.0, 30.0), high = wide * 0.35;
    int row = 0;
    for (double y = 0.0; y < trap.height_mm; y += high, ++row)
        for (double x = row % 2 == 0 ? 0.0 : -0.5 * wide; x < trap.width_mm; x += wide)
            paint_box(canvas, x + 0.4, y + 0.4, x + wide - 0.4, y + high - 0.4,
                      varied({70, 85, 165}, random, 0.25), 1.0);
}

void keyboard(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(15.0, 19.0), key = pitch - 2.5;
    int row = 0;
    for (double y = 2.0; y + key < trap.height_mm; y += pitch, ++row)
        for (double x = 2.0 + 0.25 * pitch * row; x + key < trap.width_mm; x += pitch) {
            paint_box(canvas, x, y, x + key, y + key, varied({60, 58, 56}, random, 0.1), 1.0);
            paint_text(canvas, std::string(1, static_cast<char>('A' + random.whole(0, 25))), x + 0.35 * key,
                       y + 0.4 * key, 3.5, {220, 220, 220}, Upright::up, 0);
        }
}

void grid(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(3.0, 6.0);
    for (double x = 0.0; x < trap.width_mm; x += pitch)
        paint_box(canvas, x, 0.0, x + 0.2, trap.height_mm, {190, 150, 120}, 0.9);
    for (double y = 0.0; y < trap.height_mm; y += pitch)
        paint_box(canvas, 0.0, y, trap.width_mm, y + 0.2, {190, 150, 120}, 0.9);
}

void comb(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(1.5, 2.6);
    paint_box(canvas, 0.0, 0.0, trap.width_mm, 0.35 * trap.height_mm, {40, 60, 90}, 1.0);
    for (double x = 3.0; x < trap.width_mm - 3.0; x += pitch)
        paint_box(canvas, x, 0.35 * trap.height_mm, x + 0.6 * pitch, trap.height_mm, {40, 60, 90}, 1.0);
}

void barcode(Canvas& canvas, const Trap& trap, Random& random) {
    double x = 4.0;
    while (x < trap.width_mm - 4.0) {
        const double module = 0.4 * random.whole(1, 4);
        paint_box(canvas, x, 3.0, x + module, trap.height_mm - 6.0, {20, 20, 20}, 1.0);
        x += module + 0.4 * random.whole(1, 4);
    }
}

void zip(Canvas& canvas, const Trap& trap, Random& random) {
    const double pitch = random.uniform(1.5, 2.5), middle = 0.5 * trap.height_mm;
    for (double x = 0.0; x < trap.width_mm; x += pitch) {
        paint_box(canvas, x, middle - 2.6, x + 0.62 * pitch, middle + 0.5, {150, 165, 170}, 1.0);
        paint_box(canvas, x + 0.5 * pitch, middle - 0.5, x + 1.12 * pitch, middle + 2.6, {140, 155, 165},
                  1.0);
    }
}

void round_thing(Canvas& canvas, const Trap& trap, const Colour& body, const Colour& rim) {
    const double r = 0.5 * std::min(trap.width_mm, trap.height_mm), x = 0.5 * trap.width_mm,
                 y = 0.5 * trap.height_mm;
    paint_disc(canvas, x, y, r - 0.2, rim);
    paint_disc(canvas, x, y, 0.92 * r, body);
    paint_disc(canvas, x, y, 0.66 * r, rim);
    paint_disc(canvas, x, y, 0.64 * r, body);
}

struct Ground {
    Colour colour;
    int opacity;
    double thickness_mm;
};

Ground ground_of(const Trap& trap) {
    switch (trap.make) {
        case TrapMake::weave:
            return {trap.colour * 0.7F, 255, 0.8};
        case TrapMake::bricks:
            return {{160, 165, 170}, 255, 0.0};
        case TrapMake::keyboard:
            return {{30, 30, 30}, 255, 8.0};
        case TrapMake::grid:
        case TrapMake::barcode:
            return {{240, 240, 240}, 255, 0.1};
        case TrapMake::zip:
            return {trap.colour, 255, 1.5};
        default:
            return {trap.colour, 0, 1.0};
    }
}

}  // namespace

void lay_trap(Surfaces& surfaces, const Scene& scene, const Trap& trap, const Projector& projector) {
    if (trap.make == TrapMake::yarn_ball) return;
    Random random(trap.seed * 5 + 1);
    const Ground ground = ground_of(trap);
    const double scale = 1.1 * projector.focal_px() / scene.camera.distance_mm * scene.supersampling;
    Canvas canvas = blank_canvas(trap.width_mm, trap.height_mm, std::clamp(scale, 4.0, 30.0), ground.colour,
                                 ground.opacity);
    switch (trap.make) {
        case TrapMake::weave:
            weave(canvas, trap, random);
            break;
        case TrapMake::bricks:
            bricks(canvas, trap, random);
            break;
        case TrapMake::keyboard:
            keyboard(canvas, trap, random);
            break;
        case TrapMake::grid:
            grid(canvas, trap, random);
            break;
        case TrapMake::comb:
            comb(canvas, trap, random);
            break;
        case TrapMake::barcode:
            barcode(canvas, trap, random);
            break;
        case TrapMake::zip:
            zip(canvas, trap, random);
            break;
        case TrapMake::plate:
            round_thing(canvas, trap, {225, 230, 230}, {190, 170, 150});
            break;
        case TrapMake::coin:
            round_thing(canvas, trap, {110, 160, 185}, {80, 120, 150});
            break;
        case TrapMake::yarn_ball:
            break;
    }
    Slab slab;
    slab.table_from_canvas =
        centred_frame(trap.centre_x_mm, trap.centre_y_mm, trap.angle_deg, trap.width_mm, trap.height_mm);
    slab.thickness_mm = ground.thickness_mm;
    slab.gloss = 0.15;
    slab.sides = ground.opacity == 255 && ground.thickness_mm > 0.3 ? Sides::box : Sides::none;
    slab.side = ground.colour * 0.6F;
    lay_slab(surfaces, canvas, slab, projector, scene.supersampling);
}

std::vector<Tube> trap_tubes(const Trap& trap, int yarn_index) {
    std::vector<Tube> tubes;
    if (trap.make != TrapMake::yarn_ball) return tubes;
    Random random(trap.seed * 5 + 2);
    const double radius = 0.5 * trap.width_mm, yarn = 1.6;
    for (int turn = 0; turn < 160; ++turn) {  // great circles about random axes, wound outwards
        const Vec3 axis = unit({random.normal(0, 1), random.normal(0, 1), random.normal(0, 1)});
        const Vec3 one = unit(cross(axis, std::abs(axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0})),
                   two = cross(axis, one);
        const double r = radius * (0.9 + 0.1 * turn / 160.0);
        Tube tube{{}, varied(trap.colour, random, 0.03), yarn_index, 1.0F};
        for (int k = 0; k <= 64; ++k) {
            const double a = 2.0 * pi * k / 64.0;
            const Vec3 at = r * (std::cos(a) * one + std::sin(a) * two) +
                            Vec3{trap.centre_x_mm, trap.centre_y_mm, radius};
            tube.nodes.push_back({at, yarn, r * a});
        }
        tubes.push_back(std::move(tube));
    }
    return tubes;
}

}  // namespace ridgetally::synthetic
