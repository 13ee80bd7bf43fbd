#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <map>

#include "core/random.h"
#include "core/units.h"
#include "scale/read_ruler.h"
#include "unit/scale/drawn_ruler.h"

namespace ridgetally {
namespace {

using drawn::Rule;
using drawn::View;

struct Draw {
    Rule rule;
    View view;
};

Draw draw(std::uint64_t seed) {
    Random random(seed * 7919 + 3);
    Draw d;
    Rule& r = d.rule;
    r.unit = random.uniform(0, 1) < 0.55 ? LengthUnit::mm : LengthUnit::inch;
    r.divisions = r.unit == LengthUnit::mm ? (random.uniform(0, 1) < 0.25 ? 2 : 1)
                                           : (random.uniform(0, 1) < 0.5 ? 8 : 16);
    r.length_mm = random.uniform(60.0, 220.0);
    r.width_mm = random.uniform(15.0, 35.0);
    r.long_mm = std::min(random.uniform(5.0, 10.0), 0.45 * r.width_mm);
    r.thick_mm = random.uniform(0.12, 0.3) * (r.unit == LengthUnit::mm && r.divisions == 2 ? 0.6 : 1.0);
    r.numerals = random.uniform(0, 1) < 0.8;
    const bool light = random.uniform(0, 1) < 0.3;
    r.body = light ? random.uniform(25, 80) : random.uniform(140, 235);
    r.ink = light ? random.uniform(150, 235) : random.uniform(20, 90);
    r.table = random.uniform(40, 220);
    if (random.uniform(0, 1) < 0.15) r.covered_from_mm = random.uniform(0.2, 0.7) * r.length_mm;
    View& v = d.view;
    v.size = {640, 480};
    v.px_per_mm = std::exp(random.uniform(std::log(1.6), std::log(9.0)));
    v.turn_deg = random.uniform(0.0, 360.0);
    v.tilt_deg = random.uniform(0.0, 20.0);
    v.tilt_axis_deg = random.uniform(0.0, 360.0);
    v.shift_x_px = random.uniform(-120.0, 120.0);
    v.shift_y_px = random.uniform(-90.0, 90.0);
    v.blur_px = random.uniform(0.3, 1.3);
    v.noise = random.uniform(0.5, 5.0);
    v.seed = seed;
    return d;
}

/// Scale read along the line over the true one there; 1 where the step is right.
double scale_ratio(const MarkLine& line, const Draw& d) {
    const auto rule_from_photo = inverse(drawn::photo_from_rule(d.rule, d.view));
    const ObjectPoint a = (*rule_from_photo)(line.marks.front().foot_px);
    const ObjectPoint b = (*rule_from_photo)(line.marks.back().foot_px);
    return std::abs(line.marks.back().position_mm - line.marks.front().position_mm) /
           std::hypot(b.x - a.x, b.y - a.y);
}

TEST(UnitDraws, NeverWrongAndSeldomUndecided) {
    constexpr int draws = 300;
    std::map<std::string, int> refused;
    int readable = 0;
    int read_of_readable = 0;
    for (std::uint64_t seed = 1; seed <= draws; ++seed) {
        const Draw d = draw(seed);
        const auto read = read_ruler(drawn::photo_of(d.rule, d.view));
        const bool good =
            d.view.px_per_mm * drawn::spacing_mm(d.rule) > 3.5 + 2.0 * d.view.blur_px &&
            std::abs(d.rule.body - d.rule.ink) * std::min(1.0, d.rule.thick_mm * d.view.px_per_mm) >
                12.0 * d.view.noise;
        readable += good ? 1 : 0;
        if (!read.ok()) {
            ++refused[read.refusal().code];
            continue;
        }
        read_of_readable += good ? 1 : 0;
        // The wrong step would be off by a third or more; a line over part of the rule is off by no more than
        // its own reading error.
        EXPECT_NEAR(scale_ratio(read->lines.front(), d), 1.0, 0.02)
            << "seed " << seed << ": " << (d.rule.unit == LengthUnit::mm ? "mm/" : "inch/")
            << d.rule.divisions << " at " << d.view.px_per_mm << " px/mm read as "
            << read->lines.front().spacing_mm << " mm, " << read->lines.front().marks.size() << " marks";
        EXPECT_EQ(read->lines.front().unit, d.rule.unit) << "seed " << seed;
    }
    for (const auto& [code, count] : refused) std::cout << code << ": " << count << " of " << draws << '\n';
    std::cout << "readable " << readable << ", read " << read_of_readable << '\n';
    EXPECT_GE(readable, 80);
    EXPECT_GE(read_of_readable, 0.9 * readable);
}

}  // namespace
}  // namespace ridgetally
