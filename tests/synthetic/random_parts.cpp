#include "synthetic/random_parts.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ridgetally::synthetic {
namespace {

struct NamedColour {
    const char* name;
    Colour colour;
};

const std::array<NamedColour, 16> yarn_colours{{{"white", {236, 238, 240}},
                                                {"cream", {200, 222, 232}},
                                                {"black", {34, 32, 32}},
                                                {"navy", {72, 44, 34}},
                                                {"plum", {105, 50, 110}},
                                                {"moss", {60, 120, 105}},
                                                {"sky", {215, 175, 125}},
                                                {"coral", {105, 120, 235}},
                                                {"ochre", {50, 150, 205}},
                                                {"slate", {110, 100, 92}},
                                                {"rose", {165, 150, 215}},
                                                {"forest", {62, 88, 40}},
                                                {"oatmeal", {160, 180, 192}},
                                                {"wine", {48, 30, 115}},
                                                {"lilac", {200, 160, 180}},
                                                {"mint", {190, 215, 165}}}};

bool chance(Random& random, double p) { return random.uniform(0.0, 1.0) < p; }

StitchFamily random_family(Random& random) {
    const double pick = random.uniform(0.0, 1.0);
    if (pick < 0.36) return StitchFamily::sc;
    if (pick < 0.54) return StitchFamily::sc_blo;
    if (pick < 0.68) return StitchFamily::hdc;
    if (pick < 0.82) return StitchFamily::dc;
    return pick < 0.87 ? StitchFamily::tr : StitchFamily::stockinette;
}

/// Height over width of a stitch, as published gauges have it (common practice; stockinette and triple from
/// memory).
std::array<double, 2> aspect_range(StitchFamily family) {
    switch (family) {
        case StitchFamily::sc:
            return {0.80, 1.00};
        case StitchFamily::sc_blo:
        case StitchFamily::sc_flo:
            return {0.88, 1.08};
        case StitchFamily::hdc:
        case StitchFamily::hdc_blo:
            return {1.17, 1.44};
        case StitchFamily::dc:
            return {1.60, 2.00};
        case StitchFamily::tr:
            return {2.30, 2.70};
        case StitchFamily::stockinette:
            return {0.68, 0.80};
    }
    return {1.0, 1.0};
}

std::array<double, 2> radius_range(StitchFamily family) {
    switch (family) {
        case StitchFamily::dc:
        case StitchFamily::tr:
            return {0.17, 0.23};
        case StitchFamily::stockinette:
            return {0.19, 0.25};
        default:
            return {0.19, 0.245};
    }
}

std::optional<Graduation> graduation(bool inch, const Ruler& ruler, Random& random) {
    Graduation g;
    g.inch = inch;
    g.divisions = inch ? (chance(random, 0.7) ? 16 : 8) : (chance(random, 0.12) ? 2 : 1);
    g.mark_width_mm = random.uniform(0.14, 0.28) * (g.divisions == 2 ? 0.7 : 1.0);
    g.longest_mm = std::min(random.uniform(5.0, 9.0), 0.36 * ruler.width_mm);
    g.finest_ratio = random.uniform(0.38, 0.62);
    g.numerals_in_mm = !inch && chance(random, 0.1);
    g.numerals_reversed = chance(random, 0.08);
    return g;
}

}  // namespace

Yarn random_yarn(Random& random) {
    Yarn yarn;
    const auto& base =
        yarn_colours[static_cast<std::size_t>(random.whole(0, static_cast<int>(yarn_colours.size()) - 1))];
    yarn.name = base.name;
    yarn.colours = {base.colour};
    if (chance(random, 0.12)) {
        yarn.colours.push_back(yarn_colours[static_cast<std::size_t>(random.whole(0, 15))].colour);
        yarn.name += " striped";
        yarn.stripe_rows = random.whole(2, 6);
    }
    const double make = random.uniform(0.0, 1.0);
    yarn.make = make < 0.65 ? YarnMake::plied : (make < 0.85 ? YarnMake::roving : YarnMake::cord);
    yarn.plies = random.whole(2, 4);
    yarn.lay_diameters = random.uniform(2.2, 4.2) * (chance(random, 0.8) ? 1.0 : -1.0);
    yarn.heather = chance(random, 0.3) ? random.uniform(0.1, 0.35) : random.uniform(0.0, 0.08);
    yarn.fuzz = std::pow(random.uniform(0.0, 1.0), 2.0) * 0.5;
    yarn.slub = random.uniform(0.02, 0.09);
    return yarn;
}

Fabric random_fabric(const Variety& variety, Random& random) {
    Fabric f;
    f.family = variety.family ? *variety.family : random_family(random);
    const bool round = f.family != StitchFamily::stockinette && chance(random, 0.4);
    f.worked = variety.worked ? *variety.worked : (round ? Worked::round : Worked::flat);
    const double log_pitch = random.uniform(std::log(2.9), std::log(10.5));
    f.stitch_pitch_mm = std::exp(log_pitch);
    const auto [low, high] = aspect_range(f.family);
    f.row_pitch_mm = f.stitch_pitch_mm * random.uniform(low, high);
    const auto [thin, thick] = radius_range(f.family);
    f.yarn_radius_ratio = random.uniform(thin, thick);
    const double width = random.uniform(90.0, 150.0) * (f.stitch_pitch_mm > 7.0 ? 1.25 : 1.0);
    const double height = width * random.uniform(0.75, 1.25);
    f.stitches = std::max(10, static_cast<int>(std::lround(width / f.stitch_pitch_mm)));
    f.rows = std::max(6, static_cast<int>(std::lround(height / f.row_pitch_mm)));
    f.unevenness = random.uniform(0.03, variety.max_unevenness);
    f.lean = random.uniform(0.02, 0.14);
    f.shape = {random.uniform(0.75, 1.08), random.uniform(-0.5, 0.9), random.uniform(-0.5, 0.4)};
    if (f.worked == Worked::round)
        f.round_shift = random.uniform(0.08, 0.26) * (chance(random, 0.8) ? 1.0 : -1.0);
    f.warp_mm = random.uniform(0.3, 2.2);
    f.taper = random.normal(0.0, 0.015);
    f.curl_mm = chance(random, 0.25) ? random.uniform(0.5, 3.0) : 0.0;
    f.angle_deg = random.normal(0.0, 3.0);
    f.tail = chance(random, 0.6);
    f.yarn = random_yarn(random);
    f.seed = random.next() >> 8;
    return f;
}

Ruler random_ruler(std::optional<RulerMake> make, Random& random) {
    Ruler r;
    r.make = make ? *make : static_cast<RulerMake>(random.whole(0, 5));
    r.length_mm = std::array{155.0, 210.0, 310.0}[static_cast<std::size_t>(random.whole(0, 2))];
    r.width_mm = random.uniform(22.0, 36.0);
    switch (r.make) {
        case RulerMake::steel:
            r.thickness_mm = random.uniform(0.5, 1.2);
            break;
        case RulerMake::wood:
            r.thickness_mm = random.uniform(2.0, 4.5);
            break;
        case RulerMake::tape:
            r.thickness_mm = 0.4;
            r.width_mm = random.uniform(14.0, 20.0);
            r.length_mm = 420.0;
            break;
        default:
            r.thickness_mm = random.uniform(1.2, 2.8);
    }
    r.zero_mm = r.make == RulerMake::steel && chance(random, 0.5) ? 0.0 : random.uniform(2.0, 6.0);
    const double edges = random.uniform(0.0, 1.0);
    r.upper = graduation(edges > 0.82, r, random);
    r.lower = edges < 0.45 ? graduation(true, r, random) : std::nullopt;
    if (edges < 0.06) r.lower = graduation(false, r, random);
    if (chance(random, 0.1)) {
        const double from = random.uniform(0.25, 0.6) * r.length_mm;
        r.covered_mm = std::array{from, from + random.uniform(12.0, 30.0)};
    }
    r.seed = random.next() >> 8;
    return r;
}

Table random_table(const Colour& fabric, Random& random) {
    static const std::array<Colour, 9> grounds{{{228, 230, 232},
                                                {200, 205, 208},
                                                {150, 180, 200},
                                                {70, 100, 135},
                                                {45, 65, 90},
                                                {120, 118, 115},
                                                {175, 190, 195},
                                                {90, 82, 78},
                                                {160, 140, 120}}};
    Table t;
    t.make = static_cast<TableMake>(random.whole(0, 2));
    double distance = 0.0;
    do {
        t.colour = grounds[static_cast<std::size_t>(random.whole(0, static_cast<int>(grounds.size()) - 1))];
        t.colour *= static_cast<float>(random.uniform(0.9, 1.06));
        distance = cv::norm(t.colour - fabric);
    } while (distance < 70.0);
    t.angle_deg = random.uniform(0.0, 180.0);
    t.contrast = random.uniform(0.4, 1.2);
    t.seed = random.next() >> 8;
    return t;
}

Light random_light(Random& random) {
    Light l;
    l.azimuth_deg = random.uniform(0.0, 360.0);
    l.elevation_deg = random.uniform(32.0, 72.0);
    l.ambient = random.uniform(0.3, 0.65);
    l.shadow_softness_mm = random.uniform(0.8, 4.0);
    l.gradient = random.uniform(0.0, 0.3);
    l.glare = chance(random, 0.3) ? random.uniform(0.1, 0.6) : 0.0;
    l.exposure = random.uniform(0.75, 1.1);
    const auto warm = static_cast<float>(random.normal(0.0, 0.06));
    l.tint = {1.0F - warm, 1.0F, 1.0F + warm};
    return l;
}

Sensor random_sensor(Random& random) {
    Sensor s;
    s.blur_px = random.uniform(0.4, 1.1);
    s.motion_px = chance(random, 0.15) ? random.uniform(0.5, 2.0) : 0.0;
    s.motion_deg = random.uniform(0.0, 180.0);
    s.noise = random.uniform(0.6, 4.0);
    s.vignette = random.uniform(0.0, 0.3);
    s.sharpen = random.uniform(0.0, 0.7);
    return s;
}

Scene random_things(Fabric (*make)(const Variety&, Random&), const Variety& variety, Random& random) {
    Scene scene;
    scene.seed = random.next() >> 1;
    scene.fabrics = {make(variety, random)};
    scene.rulers = {random_ruler(variety.ruler, random)};
    scene.table = random_table(scene.fabrics.front().yarn.colours.front(), random);
    scene.light = random_light(random);
    scene.sensor = random_sensor(random);
    return scene;
}

JpegOptions random_jpeg(const Camera& camera, const Variety& variety, Random& random) {
    JpegOptions o;
    o.quality = random.whole(78, 95);
    if (chance(random, variety.exif_share)) {
        o.focal35_mm = camera.focal35_mm;
        o.orientation = std::array{1, 1, 1, 6, 3, 8}[static_cast<std::size_t>(random.whole(0, 5))];
    }
    return o;
}

}  // namespace ridgetally::synthetic
