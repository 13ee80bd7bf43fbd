#include "synthetic/random_scene.h"

#include <algorithm>
#include <cmath>

#include "core/random.h"
#include "core/units.h"
#include "synthetic/random_parts.h"
#include "synthetic/render.h"

namespace ridgetally::synthetic {
namespace {

/// Height of a fabric that a ruler presses flat, in yarn radii: about the mean height of its surface.
constexpr double pressed_radii = 3.2;

/// Puts the ruler beside the fabric (which lies at the origin, rows along x) and turns the whole about the
/// origin.
void arrange(Scene& scene, const Variety& variety, Random& random) {
    Fabric& fabric = scene.fabrics.front();
    Ruler& ruler = scene.rulers.front();
    const FabricTruth size = FabricGrid(fabric).truth();
    const bool beside = random.uniform(0, 1) < 0.5;
    const double side = random.uniform(0, 1) < 0.5 ? -1.0 : 1.0;
    const double gap = random.uniform(6.0, 26.0);
    const double reach = 0.5 * (beside ? size.width_mm : size.height_mm) + gap + 0.5 * ruler.width_mm;
    const double slide = random.normal(0.0, 0.12) * ruler.length_mm;
    ruler.centre_x_mm = beside ? side * reach : slide;
    ruler.centre_y_mm = beside ? slide : side * reach;
    ruler.angle_deg =
        (beside ? 90.0 : 0.0) + (random.uniform(0, 1) < 0.5 ? 180.0 : 0.0) + random.normal(0.0, 3.0);
    if (random.uniform(0, 1) < variety.laid_on_share) {
        scene.order = Order::ruler_over_fabric;
        ruler.base_mm = pressed_radii * fabric.yarn_radius_ratio * fabric.stitch_pitch_mm;
        ruler.centre_x_mm *= beside ? variety.laid_on_reach : 1.0;
        ruler.centre_y_mm *= beside ? 1.0 : variety.laid_on_reach;
        if (ruler.make == RulerMake::clear) ruler.make = RulerMake::white;
    }
    const double turn = 90.0 * random.whole(0, 3) +
                        (random.uniform(0, 1) < 0.15 ? random.uniform(-45.0, 45.0) : random.normal(0.0, 7.0));
    const double a = turn / degrees_per_radian;
    const double x = ruler.centre_x_mm, y = ruler.centre_y_mm;
    ruler.centre_x_mm = std::cos(a) * x - std::sin(a) * y;
    ruler.centre_y_mm = std::sin(a) * x + std::cos(a) * y;
    ruler.angle_deg += turn;
    fabric.angle_deg += turn;
}

struct Box {
    double x0 = 1e9, y0 = 1e9, x1 = -1e9, y1 = -1e9;
    void add(const Vec3& p) {
        x0 = std::min(x0, p.x), y0 = std::min(y0, p.y), x1 = std::max(x1, p.x), y1 = std::max(y1, p.y);
    }
};

/// Points the camera so that the fabric and the near part of the ruler fill the frame.
void aim(Scene& scene, const Variety& variety, bool partial, Random& random) {
    Camera& camera = scene.camera;
    const Fabric& fabric = scene.fabrics.front();
    const Ruler& ruler = scene.rulers.front();
    const FabricGrid grid(fabric);
    Box box;
    for (const double i : {0.0, 1.0 * fabric.stitches})
        for (const double j : {0.0, 1.0 * fabric.rows}) box.add(grid.at(i, j));
    const double shown = std::min(ruler.length_mm, random.uniform(110.0, 240.0));
    for (const double x : {0.5 * (ruler.length_mm - shown), 0.5 * (ruler.length_mm + shown)})
        for (const double y : {0.0, ruler.width_mm}) {
            const double a = ruler.angle_deg / degrees_per_radian;
            const double dx = x - ruler.length_mm / 2.0, dy = y - ruler.width_mm / 2.0;
            box.add({ruler.centre_x_mm + std::cos(a) * dx - std::sin(a) * dy,
                     ruler.centre_y_mm + std::sin(a) * dx + std::cos(a) * dy, 0});
        }
    const bool upright = box.y1 - box.y0 > box.x1 - box.x0;
    const double pixels = variety.megapixels * 1e6;
    const int longer = static_cast<int>(std::lround(std::sqrt(pixels * 4.0 / 3.0) / 4.0)) * 4,
              shorter = longer * 3 / 4;
    camera.width_px = upright ? shorter : longer;
    camera.height_px = upright ? longer : shorter;
    camera.focal35_mm = random.uniform(0, 1) < 0.8 ? random.whole(23, 29) : random.whole(40, 60);
    const double tilt = variety.max_tilt_deg * std::pow(random.uniform(0.0, 1.0), 1.6),
                 way = random.uniform(0.0, 6.2831853);
    camera.pitch_deg = tilt * std::sin(way);
    camera.yaw_deg = tilt * std::cos(way);
    camera.roll_deg = random.normal(0.0, 4.0);
    camera.k1 = random.uniform(0, 1) < 0.5 ? random.normal(0.0, 0.004) : 0.0;
    camera.target_x_mm = 0.5 * (box.x0 + box.x1) + random.normal(0.0, 4.0);
    camera.target_y_mm = 0.5 * (box.y0 + box.y1) + random.normal(0.0, 4.0);
    if (partial) {  // drawn towards the ruler: the far side of the fabric leaves the frame
        camera.target_x_mm += 0.3 * (ruler.centre_x_mm - camera.target_x_mm);
        camera.target_y_mm += 0.3 * (ruler.centre_y_mm - camera.target_y_mm);
    }
    const double focal_px = Projector(camera).focal_px();
    const double fit =
        std::max((box.x1 - box.x0) / camera.width_px, (box.y1 - box.y0) / camera.height_px) * focal_px;
    camera.distance_mm = fit * (partial ? random.uniform(0.85, 1.0) : random.uniform(1.06, 1.5));
}

bool usable(const Scene& scene, bool partial) {
    const Truth truth = truth_of(scene);
    const double inside = truth.fabric_in_frame.front();
    const bool fabric = partial ? inside > 0.5 && inside < 0.93 : inside > 0.999;
    return fabric && std::any_of(truth.segments.begin(), truth.segments.end(),
                                 [](const auto& s) { return s.mm >= 60.0; });
}

}  // namespace

Shot random_swatch(std::uint64_t seed, const Variety& variety) {
    Random random(seed * 1000003 + 17);
    Shot shot;
    shot.kind = "swatch";
    do {
        shot.scene = random_things(random_fabric, variety, random);
        arrange(shot.scene, variety, random);
        shot.partial = random.uniform(0, 1) < variety.partial_share;
        aim(shot.scene, variety, shot.partial, random);
    } while (!usable(shot.scene, shot.partial));
    add_company(shot.scene, variety.company, seed);
    shot.jpeg = random_jpeg(shot.scene.camera, variety, random);
    return shot;
}

}  // namespace ridgetally::synthetic
