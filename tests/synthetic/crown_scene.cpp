#include "synthetic/crown_scene.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/units.h"
#include "synthetic/crown_tubes.h"
#include "synthetic/random_parts.h"
#include "synthetic/render.h"

namespace ridgetally::synthetic {
namespace {

bool chance(Random& random, double p) { return random.uniform(0.0, 1.0) < p; }

StitchFamily random_family(Random& random) {
    const double pick = random.uniform(0.0, 1.0);
    if (pick < 0.34) return StitchFamily::sc;
    if (pick < 0.62) return StitchFamily::sc_blo;
    return pick < 0.76 ? StitchFamily::hdc : StitchFamily::dc;
}

/// Stitches of the first round and added in every further one, as patterns for flat discs have them (common
/// practice, no source).
int usual_increase(StitchFamily family, Random& random) {
    switch (family) {
        case StitchFamily::dc:
        case StitchFamily::tr:
            return chance(random, 0.8) ? 12 : 11;
        case StitchFamily::hdc:
        case StitchFamily::hdc_blo:
            return chance(random, 0.7) ? 8 : 9;
        default:
            return chance(random, 0.7) ? 6 : (chance(random, 0.5) ? 7 : 8);
    }
}

/// Rounds of a flat disc: stitch counts by the scheme, heights so that the last round's stitches come out as
/// wide as `width_mm` (N w = 2 pi r).
std::vector<CrownRound> random_rounds(StitchFamily family, double width_mm, Random& random) {
    const bool tall = family == StitchFamily::dc || family == StitchFamily::tr;
    const int count = tall ? random.whole(2, 6) : random.whole(4, 11);
    const int increase = usual_increase(family, random);
    const bool mixed = chance(random, 0.12);
    std::vector<CrownRound> rounds;
    int stitches = increase;
    for (int r = 0; r < count; ++r) {
        rounds.push_back({family, stitches, 1.0});
        if (mixed && r % 2 == 1) rounds.back().family = tall ? StitchFamily::sc : StitchFamily::dc;
        stitches += increase + (chance(random, 0.15) ? random.whole(-1, 1) : 0);
    }
    const double flatness = random.uniform(0.95, 1.05);
    const double mean_height = rounds.back().stitches * width_mm / (2.0 * 3.14159265 * (count - 0.1));
    for (CrownRound& round : rounds) {
        const bool short_one = mixed && round.family == StitchFamily::sc;
        const bool tall_one = mixed && round.family == StitchFamily::dc;
        round.height_mm = flatness * mean_height * (short_one ? 0.68 : (tall_one ? 1.45 : 1.0));
    }
    return rounds;
}

Fabric random_crown_fabric(const Variety& variety, Random& random) {
    Variety round = variety;
    round.worked = Worked::round;
    if (!round.family) round.family = random_family(random);
    Fabric fabric = random_fabric(round, random);
    fabric.stitch_pitch_mm = std::exp(random.uniform(std::log(4.0), std::log(11.5)));
    Crown crown;
    crown.rounds = random_rounds(fabric.family, fabric.stitch_pitch_mm, random);
    const double yarn_mm = fabric.yarn_radius_ratio * fabric.stitch_pitch_mm;
    crown.ring_mm = yarn_mm * random.uniform(1.0, 2.2);
    // Tall stitches are joined: their round is too high a step to climb (common practice, no source).
    const bool tall = fabric.family == StitchFamily::dc || fabric.family == StitchFamily::tr;
    crown.joining = !tall && chance(random, 0.6) ? Joining::spiral : Joining::joined;
    crown.rim_lift = random.uniform(1.0, 2.8);
    crown.oval = chance(random, 0.3) ? random.normal(0.0, 0.015) : 0.0;
    crown.wave_mm = chance(random, 0.2) ? random.uniform(0.5, 2.5) : 0.0;
    crown.cup_mm = chance(random, 0.2) ? random.uniform(0.5, 2.0) : 0.0;
    crown.rim_loops = chance(random, 0.3) ? random.whole(1, 3) : 0;
    crown.increase_pull = random.uniform(0.0, 0.8);
    fabric.crown = crown;
    fabric.curl_mm = 0.0;
    fabric.stitches = crown.rounds.back().stitches;
    fabric.rows = static_cast<int>(crown.rounds.size());
    return fabric;
}

/// The ruler beside the crown, at any angle.
void place_ruler(Scene& scene, Random& random) {
    Ruler& ruler = scene.rulers.front();
    const double way = random.uniform(0.0, 360.0);
    const double reach = 1.06 * CrownGrid(scene.fabrics.front()).radius_mm() + random.uniform(8.0, 24.0) +
                         0.5 * ruler.width_mm;
    const double slide = random.normal(0.0, 0.1) * ruler.length_mm;
    const double c = std::cos(way / degrees_per_radian), s = std::sin(way / degrees_per_radian);
    ruler.centre_x_mm = reach * c - slide * s;
    ruler.centre_y_mm = reach * s + slide * c;
    ruler.angle_deg = way + 90.0 + (chance(random, 0.5) ? 180.0 : 0.0) + random.normal(0.0, 6.0);
}

/// Points the camera so that the crown and some of the ruler fill the frame.
void aim(Scene& scene, const Variety& variety, bool partial, Random& random) {
    Camera& camera = scene.camera;
    const Ruler& ruler = scene.rulers.front();
    const double radius = CrownGrid(scene.fabrics.front()).radius_mm();
    const double shown = 0.5 * std::min(ruler.length_mm, random.uniform(110.0, 200.0));
    const double a = ruler.angle_deg / degrees_per_radian;
    double x0 = -radius, x1 = radius, y0 = -radius, y1 = radius;
    for (const double side : {-1.0, 1.0}) {
        const double x = ruler.centre_x_mm + side * shown * std::cos(a);
        const double y = ruler.centre_y_mm + side * shown * std::sin(a);
        x0 = std::min(x0, x), x1 = std::max(x1, x), y0 = std::min(y0, y), y1 = std::max(y1, y);
    }
    const bool upright = y1 - y0 > x1 - x0;
    const int longer =
        static_cast<int>(std::lround(std::sqrt(variety.megapixels * 1e6 * 4.0 / 3.0) / 4.0)) * 4;
    camera.width_px = upright ? longer * 3 / 4 : longer;
    camera.height_px = upright ? longer : longer * 3 / 4;
    camera.focal35_mm = chance(random, 0.8) ? random.whole(23, 29) : random.whole(40, 60);
    const double tilt = variety.max_tilt_deg * std::pow(random.uniform(0.0, 1.0), 1.6);
    const double way = random.uniform(0.0, 6.2831853);
    camera.pitch_deg = tilt * std::sin(way);
    camera.yaw_deg = tilt * std::cos(way);
    camera.roll_deg = random.normal(0.0, 4.0);
    camera.k1 = chance(random, 0.5) ? random.normal(0.0, 0.004) : 0.0;
    camera.target_x_mm = 0.5 * (x0 + x1) + random.normal(0.0, 4.0);
    camera.target_y_mm = 0.5 * (y0 + y1) + random.normal(0.0, 4.0);
    const double fit = std::max((x1 - x0) / camera.width_px, (y1 - y0) / camera.height_px);
    camera.distance_mm = fit * Projector(camera).focal_px() *
                         (partial ? random.uniform(0.75, 0.95) : random.uniform(1.06, 1.4));
}

bool usable(const Scene& scene, bool partial) {
    const Truth truth = truth_of(scene);
    const double inside = truth.fabric_in_frame.front();
    const bool seen = partial ? inside > 0.75 && inside < 0.995 : inside > 0.999;
    return seen && std::any_of(truth.segments.begin(), truth.segments.end(),
                               [](const auto& s) { return s.mm >= 60.0; });
}

}  // namespace

Shot random_crown(std::uint64_t seed, const Variety& variety) {
    Random random(seed * 1000033 + 29);
    Shot shot;
    shot.kind = "crown";
    do {
        shot.scene = random_things(random_crown_fabric, variety, random);
        place_ruler(shot.scene, random);
        shot.partial = chance(random, variety.partial_share);
        aim(shot.scene, variety, shot.partial, random);
    } while (!usable(shot.scene, shot.partial));
    shot.jpeg = random_jpeg(shot.scene.camera, variety, random);
    return shot;
}

}  // namespace ridgetally::synthetic
