#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "core/units.h"
#include "scale/read_ruler.h"
#include "unit/scale/drawn_ruler.h"

namespace ridgetally {
namespace {

using drawn::View;

/// Grey of a thing at a place: x along it and y across, in its own spacings.
using Thing = std::function<double(double x, double y)>;

constexpr double dark = 40.0;
constexpr double light = 220.0;
constexpr double ground = 130.0;

double part(double v) { return v - std::floor(v); }
bool odd(double v) { return static_cast<long>(std::floor(v)) % 2 != 0; }

struct Trap {
    const char* name;
    Thing grey;
};

void PrintTo(const Trap& trap, std::ostream* out) { *out << trap.name; }

class CoarseTraps : public testing::TestWithParam<Trap> {};

/// Evenly divided, dark and light, and no scale.
TEST_P(CoarseTraps, GiveNoScale) {
    for (const double spacing_px : {13.0, 23.0, 37.0})
        for (const double turn_deg : {0.0, 27.0, 92.0}) {
            View view;
            view.size = {640, 480};
            const double c = std::cos(turn_deg / degrees_per_radian);
            const double s = std::sin(turn_deg / degrees_per_radian);
            const auto read = read_ruler(drawn::photo_of_pattern(view, [&](double px, double py) {
                const double x = ((px - 320.0) * c + (py - 240.0) * s) / spacing_px;
                const double y = ((py - 240.0) * c - (px - 320.0) * s) / spacing_px;
                return GetParam().grey(x, y);
            }));
            EXPECT_FALSE(read.ok()) << spacing_px << " px apart, turned by " << turn_deg << ": a scale of "
                                    << read->lines.front().spacing_mm << " mm from "
                                    << read->lines.front().marks.size() << " marks";
        }
}

double chequered_border(double x, double y) {
    if (y < 0.0 || y >= 2.0) return ground;
    return odd(x) != odd(y) ? light : dark;
}

/// Perforations of a film, eight to a picture (35 mm film has eight to a frame of 38 mm; from memory).
double film_strip(double x, double y) {
    if (std::abs(y) > 0.9) return ground;
    if (std::abs(y) < 0.55) return part(x) < 0.06 ? dark : 110.0;
    return std::abs(y) > 0.62 && std::abs(y) < 0.8 && part(8.0 * x) > 0.3 && part(8.0 * x) < 0.75 ? light
                                                                                                  : dark;
}

double striped_tape(double x, double y) {
    return std::abs(y) > 0.6 ? ground : part(x + y) < 0.5 ? light : dark;
}

double dominoes(double x, double y) {
    if (std::abs(y) > 1.0) return ground;
    if (part(x) < 0.05 || std::abs(y) < 0.03) return dark;
    const double dx = part(3.0 * x) - 0.5;
    const double dy = part(3.0 * y) - 0.5;
    return std::hypot(dx, dy) < 0.25 ? dark : light;
}

double zebra_crossing(double x, double y) { return std::abs(y) > 4.0 ? 90.0 : odd(x) ? 225.0 : 80.0; }

/// Ten threads to a check: as many as a centimetre has millimetres, but all over the cloth.
double gingham(double x, double y) {
    const double check = (odd(x) ? 45.0 : 0.0) + (odd(y) ? 45.0 : 0.0);
    const double thread = 18.0 * std::cos(2.0 * 3.14159265358979 * 10.0 * x);
    return 200.0 - check + thread;
}

/// Ten rows to a stripe.
double striped_fabric(double x, double y) {
    const double row = 25.0 * std::cos(2.0 * 3.14159265358979 * (10.0 * x + 0.2 * std::sin(20.0 * y)));
    return (odd(x) ? 170.0 : 90.0) + row;
}

double comb_of_teeth(double x, double y) {
    if (y < 0.0) return y > -0.4 ? dark : light;
    return y < 0.6 && part(10.0 * x) < 0.4 ? dark : light;
}

double blocks(double x, double y) { return std::abs(y) > 0.5 ? ground : odd(x) ? light : dark; }

double bricks(double x, double y) {
    const double shifted = odd(2.0 * y) ? x + 0.5 : x;
    return part(2.0 * y) < 0.1 || part(shifted) < 0.05 ? 190.0 : 110.0;
}

INSTANTIATE_TEST_SUITE_P(Things, CoarseTraps,
                         testing::Values(Trap{"chequered_border", chequered_border},
                                         Trap{"film_strip", film_strip}, Trap{"striped_tape", striped_tape},
                                         Trap{"dominoes", dominoes}, Trap{"zebra_crossing", zebra_crossing},
                                         Trap{"gingham", gingham}, Trap{"striped_fabric", striped_fabric},
                                         Trap{"comb", comb_of_teeth}, Trap{"blocks", blocks},
                                         Trap{"bricks", bricks}),
                         [](const auto& trap) { return trap.param.name; });

}  // namespace
}  // namespace ridgetally
