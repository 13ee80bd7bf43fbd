#include "synthetic/refusals.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/units.h"
#include "synthetic/fabric_grid.h"
#include "synthetic/random_parts.h"

namespace ridgetally::synthetic {
namespace {

/// Whether a thing has no edge of its own to speak of (cloth, wall, print) or is one object.
enum class Extent { surface, object };

struct TrapKind {
    const char* name;
    TrapMake make;
    Extent extent;
    double width_mm, height_mm;
    Colour colour;
};

constexpr auto surface = Extent::surface, object = Extent::object;

const std::vector<TrapKind>& trap_kinds() {
    static const std::vector<TrapKind> kinds{
        {"woven", TrapMake::weave, surface, 130, 120, {120, 70, 60}},
        {"herringbone", TrapMake::herringbone, surface, 130, 120, {90, 80, 75}},
        {"corduroy", TrapMake::corduroy, surface, 130, 120, {60, 90, 130}},
        {"basket", TrapMake::basket, surface, 140, 130, {110, 160, 195}},
        {"checks", TrapMake::checks, surface, 140, 130, {70, 60, 190}},
        {"hand-woven", TrapMake::hand_woven, surface, 130, 120, {130, 95, 70}},
        {"net", TrapMake::net, surface, 140, 120, {90, 150, 110}},
        {"bricks", TrapMake::bricks, surface, 260, 200, {80, 90, 160}},
        {"tiles", TrapMake::tiles, surface, 160, 150, {190, 175, 150}},
        {"honeycomb", TrapMake::honeycomb, surface, 150, 140, {120, 150, 170}},
        {"grid", TrapMake::grid, surface, 150, 150, {240, 240, 240}},
        {"text", TrapMake::text, surface, 130, 170, {240, 240, 240}},
        {"studs", TrapMake::studs, surface, 130, 130, {70, 150, 90}},
        {"keyboard", TrapMake::keyboard, object, 200, 90, {50, 50, 50}},
        {"piano", TrapMake::piano, object, 190, 45, {40, 40, 40}},
        {"barcode", TrapMake::barcode, object, 70, 40, {245, 245, 245}},
        {"comb", TrapMake::comb, object, 160, 38, {40, 60, 90}},
        {"fence", TrapMake::fence, object, 180, 60, {140, 170, 185}},
        {"zip", TrapMake::zip, object, 180, 28, {120, 60, 40}},
        {"notebook", TrapMake::notebook, object, 150, 120, {245, 245, 245}},
        {"pen-marks", TrapMake::pen_marks, object, 170, 22, {240, 240, 240}},
        {"plate", TrapMake::plate, object, 150, 150, {220, 225, 225}},
        {"coin", TrapMake::coin, object, 26, 26, {110, 160, 185}},
        {"button", TrapMake::button, object, 34, 34, {110, 70, 60}},
        {"yarn-ball", TrapMake::yarn_ball, object, 80, 80, {90, 110, 200}},
        {"rope-coil", TrapMake::rope_coil, object, 140, 140, {120, 165, 190}}};
    return kinds;
}

/// Things divided as evenly as a scale. Apart from the others: the kinds' order gives their seeds in tests.
const std::vector<TrapKind>& bar_kinds() {
    static const std::vector<TrapKind> kinds{
        {"chequered-border", TrapMake::chequered_border, object, 170, 24, {30, 30, 30}},
        {"film-strip", TrapMake::film_strip, object, 180, 35, {90, 120, 140}},
        {"striped-tape", TrapMake::striped_tape, object, 180, 20, {60, 200, 240}},
        {"dominoes", TrapMake::dominoes, object, 170, 34, {235, 238, 240}},
        {"zebra-crossing", TrapMake::zebra_crossing, object, 180, 60, {70, 70, 70}}};
    return kinds;
}

const TrapKind* trap_named(const std::string& name) {
    for (const auto* kinds : {&trap_kinds(), &bar_kinds()}) {
        const auto found =
            std::find_if(kinds->begin(), kinds->end(), [&](const auto& k) { return name == k.name; });
        if (found != kinds->end()) return &*found;
    }
    return nullptr;
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

/// The thing lies under everything and beyond the frame on all sides.
void spread_out(Scene& scene, Trap trap) {
    const Projector projector(scene.camera);
    const double frame_mm = std::hypot(scene.camera.width_px, scene.camera.height_px) *
                            scene.camera.distance_mm / projector.focal_px();
    trap.centre_x_mm = scene.camera.target_x_mm;
    trap.centre_y_mm = scene.camera.target_y_mm;
    trap.width_mm = trap.height_mm = 1.5 * frame_mm;
    scene.traps.push_back(trap);
}

/// The camera comes so near that the thing fills the frame's longer side.
void come_near(Scene& scene, const Trap& trap) {
    Camera& camera = scene.camera;
    const double longer_px = std::max(camera.width_px, camera.height_px);
    camera.target_x_mm = trap.centre_x_mm;
    camera.target_y_mm = trap.centre_y_mm;
    camera.distance_mm =
        1.25 * std::max({trap.width_mm, trap.height_mm, 60.0}) * Projector(camera).focal_px() / longer_px;
}

/// What a kind is made of: "fabric-and-comb" is the trap "comb" with the layout "fabric-and-".
struct NamedLayout {
    const TrapKind* trap = nullptr;
    std::string layout;
};

constexpr const char* in_rulers_place = "fabric-and-";
constexpr const char* under_ruler = "ruler-on-";
constexpr const char* alone = "only-";
constexpr const char* cut_round = "round-";

NamedLayout layout_of(const std::string& kind) {
    for (const std::string prefix : {in_rulers_place, under_ruler, alone, cut_round})
        if (kind.starts_with(prefix)) return {trap_named(kind.substr(prefix.size())), prefix};
    return {trap_named(kind), ""};
}

void set_trap(Scene& scene, const NamedLayout& named, Random& random) {
    const Ruler ruler = scene.rulers.front();
    const Fabric fabric = scene.fabrics.front();
    const bool for_ruler = named.layout == in_rulers_place;
    Trap trap = for_ruler
                    ? trap_of(*named.trap, ruler.centre_x_mm, ruler.centre_y_mm, ruler.angle_deg, random)
                    : trap_of(*named.trap, fabric.centre_x_mm, fabric.centre_y_mm, fabric.angle_deg, random);
    const bool round = named.layout == cut_round;
    if (round) trap.outline = TrapOutline::round;
    if (for_ruler || named.layout == alone) scene.rulers.clear();
    if (!for_ruler) scene.fabrics.clear();
    const bool spreads =
        named.trap->extent == Extent::surface && !for_ruler && !round && !named.layout.empty();
    if (spreads) return spread_out(scene, trap);
    if (named.layout == alone) come_near(scene, trap);
    scene.traps.push_back(trap);
}

}  // namespace

const std::vector<std::string>& refusal_kinds() {
    static const std::vector<std::string> kinds = [] {
        std::vector<std::string> names{"no-ruler", "no-fabric", "bare-table", "unreadable-marks",
                                       "two-fabrics"};
        for (const auto& k : trap_kinds()) names.emplace_back(k.name);
        for (const auto& k : trap_kinds()) names.push_back(std::string(alone) + k.name);
        for (const auto& k : trap_kinds())
            if (k.extent == Extent::surface) names.push_back(std::string(under_ruler) + k.name);
        for (const char* k : {"grid", "comb", "barcode", "zip", "keyboard", "piano", "fence", "notebook",
                              "pen-marks", "text", "checks"})
            names.push_back(std::string(in_rulers_place) + k);
        for (const auto& k : bar_kinds())
            for (const char* layout : {"", alone, in_rulers_place})
                names.push_back(std::string(layout) + k.name);
        return names;
    }();
    return kinds;
}

const std::vector<std::string>& round_things() {
    static const std::vector<std::string> kinds = [] {
        std::vector<std::string> names{"plate", "coin", "button", "yarn-ball", "rope-coil"};
        for (const auto& k : trap_kinds())
            if (k.extent == Extent::surface) names.push_back(std::string(cut_round) + k.name);
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
    if (kind == "no-ruler") {
        scene.rulers.clear();
    } else if (kind == "no-fabric") {
        scene.fabrics.clear();
    } else if (kind == "bare-table") {
        scene.rulers.clear();
        scene.fabrics.clear();
    } else if (kind == "unreadable-marks") {
        rub_off(scene.rulers.front());
    } else if (kind == "two-fabrics") {
        add_second_fabric(scene, variety, random);
    } else if (const NamedLayout named = layout_of(kind); named.trap != nullptr) {
        set_trap(scene, named, random);
    } else {
        throw std::invalid_argument("no refusal scene is called " + kind);
    }
    return shot;
}

}  // namespace ridgetally::synthetic
