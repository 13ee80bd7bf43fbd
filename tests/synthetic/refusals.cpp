#include "synthetic/refusals.h"

#include <algorithm>
#include <stdexcept>

#include "core/units.h"
#include "synthetic/fabric_grid.h"
#include "synthetic/random_parts.h"

namespace ridgetally::synthetic {
namespace {

struct TrapKind {
    const char* name;
    TrapMake make;
    double width_mm, height_mm;
    Colour colour;
};

const std::vector<TrapKind>& trap_kinds() {
    static const std::vector<TrapKind> kinds{{"woven", TrapMake::weave, 130, 120, {120, 70, 60}},
                                             {"bricks", TrapMake::bricks, 260, 200, {80, 90, 160}},
                                             {"keyboard", TrapMake::keyboard, 200, 90, {50, 50, 50}},
                                             {"grid", TrapMake::grid, 150, 150, {240, 240, 240}},
                                             {"comb", TrapMake::comb, 160, 38, {40, 60, 90}},
                                             {"barcode", TrapMake::barcode, 70, 40, {245, 245, 245}},
                                             {"zip", TrapMake::zip, 180, 28, {120, 60, 40}},
                                             {"plate", TrapMake::plate, 150, 150, {220, 225, 225}},
                                             {"coin", TrapMake::coin, 26, 26, {110, 160, 185}},
                                             {"yarn-ball", TrapMake::yarn_ball, 80, 80, {90, 110, 200}}};
    return kinds;
}

const TrapKind* trap_named(const std::string& name) {
    const auto& kinds = trap_kinds();
    const auto found =
        std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return name == k.name; });
    return found == kinds.end() ? nullptr : &*found;
}

Trap trap_of(const TrapKind& kind, double x_mm, double y_mm, double angle_deg, Random& random) {
    return {kind.make,
            x_mm,
            y_mm,
            kind.width_mm * random.uniform(0.9, 1.15),
            kind.height_mm * random.uniform(0.9, 1.15),
            angle_deg,
            kind.colour,
            random.next() >> 8};
}

/// Marks that cannot be read: rubbed off, and no numerals.
void rub_off(Ruler& ruler) {
    for (auto* g : {&ruler.upper, &ruler.lower})
        if (*g) (*g)->wear = 0.97, (*g)->numerals = false;
}

/// A second piece of another yarn and gauge, on the first one's far side from the ruler.
void add_second_fabric(Scene& scene, const Variety& variety, Random& random) {
    const Fabric& first = scene.fabrics.front();
    const Ruler& ruler = scene.rulers.front();
    Fabric second = random_fabric(variety, random);
    const double aspect = second.row_pitch_mm / second.stitch_pitch_mm;
    const double ratio = random.uniform(0, 1) < 0.5 ? 0.62 : 1.6;
    const FabricTruth size = FabricGrid(first).truth();
    second.stitch_pitch_mm = ratio * first.stitch_pitch_mm;
    second.row_pitch_mm = aspect * second.stitch_pitch_mm;
    second.stitches = std::max(8, static_cast<int>(0.85 * size.width_mm / second.stitch_pitch_mm));
    second.rows = std::max(5, static_cast<int>(0.85 * size.height_mm / second.row_pitch_mm));
    second.angle_deg = first.angle_deg;
    second.tail = false;

    const Vec3 away =
        unit(Vec3{first.centre_x_mm - ruler.centre_x_mm, first.centre_y_mm - ruler.centre_y_mm, 0.0});
    const double along_rows = std::abs(away.x * std::cos(first.angle_deg / degrees_per_radian) +
                                       away.y * std::sin(first.angle_deg / degrees_per_radian));
    const double step = (along_rows > 0.7 ? 0.95 * size.width_mm : 0.95 * size.height_mm) + 8.0;
    second.centre_x_mm = first.centre_x_mm + step * away.x;
    second.centre_y_mm = first.centre_y_mm + step * away.y;
    scene.camera.target_x_mm += 0.45 * step * away.x;
    scene.camera.target_y_mm += 0.45 * step * away.y;
    scene.camera.distance_mm *= 1.45;
    scene.fabrics.push_back(second);
}

}  // namespace

const std::vector<std::string>& refusal_kinds() {
    static const std::vector<std::string> kinds = [] {
        std::vector<std::string> names{"no-ruler", "no-fabric", "unreadable-marks", "two-fabrics"};
        for (const auto& k : trap_kinds()) names.emplace_back(k.name);
        for (const char* k : {"grid", "comb", "barcode", "zip", "keyboard"})
            names.push_back(std::string("fabric-and-") + k);
        return names;
    }();
    return kinds;
}

Shot random_refusal(std::uint64_t seed, const std::string& kind, const Variety& variety) {
    Variety whole = variety;
    whole.partial_share = 0.0;
    whole.laid_on_share = 0.0;
    Shot shot = random_swatch(seed * 31 + 5, whole);
    Random random(seed * 7919 + 3);
    Scene& scene = shot.scene;
    shot.kind = kind;
    const Ruler ruler = scene.rulers.front();
    const std::string prefix = "fabric-and-";
    if (kind == "no-ruler") {
        scene.rulers.clear();
    } else if (kind == "no-fabric") {
        scene.fabrics.clear();
    } else if (kind == "unreadable-marks") {
        rub_off(scene.rulers.front());
    } else if (kind == "two-fabrics") {
        add_second_fabric(scene, variety, random);
    } else if (const TrapKind* trap = trap_named(kind)) {  // beside a good ruler, where a swatch should be
        const Fabric f = scene.fabrics.front();
        scene.fabrics.clear();
        scene.traps.push_back(trap_of(*trap, f.centre_x_mm, f.centre_y_mm, f.angle_deg, random));
    } else if (kind.rfind(prefix, 0) == 0 && trap_named(kind.substr(prefix.size())) != nullptr) {
        scene.rulers.clear();
        scene.traps.push_back(trap_of(*trap_named(kind.substr(prefix.size())), ruler.centre_x_mm,
                                      ruler.centre_y_mm, ruler.angle_deg, random));
    } else {
        throw std::invalid_argument("no refusal scene is called " + kind);
    }
    return shot;
}

}  // namespace ridgetally::synthetic
