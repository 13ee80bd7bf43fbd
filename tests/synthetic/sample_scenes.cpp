#include "synthetic/sample_scenes.h"

#include "synthetic/truth_json.h"

namespace ridgetally::synthetic {
namespace {

/// What all samples share: a phone held over the stall's table by a careful hand.
Scene stall_scene(std::uint64_t seed) {
    Scene scene;
    scene.seed = seed;
    scene.camera.width_px = 1800;
    scene.camera.height_px = 1350;
    scene.camera.focal35_mm = 26.0;
    scene.camera.roll_deg = 1.5;
    scene.sensor.noise = 0.8;
    scene.sensor.blur_px = 0.6;
    scene.sensor.sharpen = 0.2;
    scene.light.ambient = 0.5;
    scene.table.seed = seed + 1;
    return scene;
}

Fabric piece(StitchFamily family, Worked worked, int stitches, int rows, double stitch_mm, double row_mm,
             std::uint64_t seed) {
    Fabric f;
    f.family = family;
    f.worked = worked;
    f.stitches = stitches;
    f.rows = rows;
    f.stitch_pitch_mm = stitch_mm;
    f.row_pitch_mm = row_mm;
    f.unevenness = 0.07;
    f.seed = seed;
    return f;
}

/// Lays a ruler `gap_mm` below the fabric, along its rows, and points the camera at both.
void beside(Scene& scene, Ruler ruler, double gap_mm, double distance_mm) {
    const FabricTruth size = FabricGrid(scene.fabrics.front()).truth();
    ruler.centre_y_mm = 0.5 * size.height_mm + gap_mm + 0.5 * ruler.width_mm;
    ruler.angle_deg += 2.0;
    scene.camera.target_y_mm = 0.5 * (gap_mm + ruler.width_mm);
    scene.camera.distance_mm = distance_mm;
    scene.rulers = {ruler};
}

Shot taken(Scene scene, int quality) {
    Shot shot;
    shot.kind = scene.rulers.empty() ? "no-ruler" : "swatch";
    shot.jpeg.quality = quality;
    shot.jpeg.focal35_mm = scene.camera.focal35_mm;
    shot.scene = std::move(scene);
    return shot;
}

Sample turned_single() {
    Scene scene = stall_scene(11);
    Fabric f = piece(StitchFamily::sc, Worked::flat, 22, 23, 5.8, 5.2, 101);
    f.yarn.name = "moss";
    f.yarn.colours = {{75, 135, 120}};
    f.angle_deg = -3.0;
    scene.fabrics = {f};
    scene.table.colour = {205, 212, 216};
    scene.camera.pitch_deg = 4.0;
    Ruler ruler;
    ruler.make = RulerMake::steel;
    ruler.length_mm = 210.0;
    ruler.lower = Graduation{};
    ruler.lower->inch = true;
    ruler.lower->divisions = 16;
    beside(scene, ruler, 16.0, 195.0);
    return {"brimful-moss", taken(scene, 80), "Turned rows of single crochet for the Brimful hat",
            "Fennelwick DK in Moss", 4.5};
}

Sample round_single() {
    Scene scene = stall_scene(12);
    Fabric f = piece(StitchFamily::sc, Worked::round, 26, 30, 4.7, 4.2, 102);
    f.round_shift = 0.14;
    f.yarn.name = "cream";
    f.yarn.colours = {{205, 224, 234}};
    f.yarn.plies = 4;
    f.angle_deg = 2.0;
    scene.fabrics = {f};
    scene.table.make = TableMake::wood;
    scene.table.colour = {60, 90, 125};
    scene.camera.yaw_deg = -6.0;
    Ruler ruler;
    ruler.make = RulerMake::wood;
    ruler.length_mm = 210.0;
    ruler.width_mm = 28.0;
    ruler.thickness_mm = 3.0;
    beside(scene, ruler, 14.0, 195.0);
    return {"pudding-cream", taken(scene, 76), "Single crochet in the round for the Pudding Basin cap",
            "Oddmere Four in Cream", 3.5};
}

Sample thick_half_double() {
    Scene scene = stall_scene(13);
    Fabric f = piece(StitchFamily::hdc, Worked::flat, 14, 13, 12.4, 15.2, 103);
    f.yarn.name = "ochre";
    f.yarn.colours = {{60, 155, 205}};
    f.yarn.make = YarnMake::roving;
    f.yarn.fuzz = 0.35;
    scene.fabrics = {f};
    scene.table.colour = {110, 96, 88};
    scene.camera.pitch_deg = -5.0;
    scene.light.azimuth_deg = 220.0;
    Ruler tape;
    tape.make = RulerMake::tape;
    tape.length_mm = 420.0;
    tape.width_mm = 16.0;
    tape.thickness_mm = 0.4;
    tape.seed = 3;
    beside(scene, tape, 18.0, 300.0);
    return {"earflap-ochre", taken(scene, 80), "Thick yarn, half double crochet, for the Earflap",
            "Bramble Rope in Ochre", 9.0};
}

Sample ribbed_brim() {
    Scene scene = stall_scene(14);
    Fabric f = piece(StitchFamily::sc_blo, Worked::flat, 20, 24, 6.3, 6.2, 104);
    f.yarn.name = "slate";
    f.yarn.colours = {{140, 122, 108}};
    f.yarn.make = YarnMake::cord;
    f.angle_deg = 4.0;
    scene.fabrics = {f};
    scene.table.make = TableMake::cloth;
    scene.table.colour = {205, 215, 222};
    scene.table.contrast = 0.4;
    Ruler ruler;
    ruler.make = RulerMake::black;
    ruler.length_mm = 210.0;
    ruler.thickness_mm = 1.6;
    ruler.width_mm = 30.0;
    beside(scene, ruler, 15.0, 225.0);
    return {"brim-slate", taken(scene, 74), "Back-loop ribbing for a turned-up brim",
            "Quillfeather Aran in Slate", 5.0};
}

Sample tall_inches() {
    Scene scene = stall_scene(15);
    Fabric f = piece(StitchFamily::dc, Worked::flat, 22, 12, 5.9, 10.2, 105);
    f.yarn_radius_ratio = 0.21;
    f.yarn.name = "coral";
    f.yarn.colours = {{115, 125, 225}};
    f.angle_deg = -2.0;
    scene.fabrics = {f};
    scene.table.colour = {225, 228, 230};
    scene.camera.pitch_deg = 7.0;
    scene.camera.yaw_deg = 3.0;
    Ruler ruler;
    ruler.make = RulerMake::white;
    ruler.length_mm = 210.0;
    ruler.thickness_mm = 1.8;
    ruler.upper->inch = true;
    ruler.upper->divisions = 16;
    beside(scene, ruler, 14.0, 205.0);
    return {"trellis-coral", taken(scene, 80), "Double crochet for the Trellis sun hat, measured in inches",
            "Fennelwick DK in Coral", 5.0};
}

/// A crown of thick yarn: 45 stitches after six rounds, increases not quite even.
Sample ribbed_crown() {
    Scene scene = stall_scene(16);
    Fabric f = piece(StitchFamily::sc_blo, Worked::round, 45, 6, 11.0, 11.4, 106);
    f.tail = true;
    f.unevenness = 0.05;
    f.yarn.name = "brick";
    f.yarn.colours = {{70, 85, 175}};
    f.yarn.make = YarnMake::roving;
    Crown crown;
    crown.ring_mm = 4.0;
    for (const int stitches : {7, 15, 22, 30, 37, 45})
        crown.rounds.push_back({StitchFamily::sc_blo, stitches, 11.6});
    crown.increase_pull = 0.3;
    f.crown = crown;
    scene.fabrics = {f};
    scene.table.colour = {205, 212, 216};
    scene.camera.pitch_deg = 3.0;
    scene.camera.target_y_mm = 22.0;
    scene.camera.distance_mm = 270.0;
    Ruler ruler;
    ruler.make = RulerMake::steel;
    ruler.length_mm = 210.0;
    ruler.centre_y_mm = 108.0;
    ruler.angle_deg = 2.0;
    scene.rulers = {ruler};
    Sample sample{"earflap-crown", taken(scene, 78),
                  "The crown of an Earflap, six rounds in, before the sides", "Bramble Rope in Brick", 9.0};
    sample.shot.kind = "crown";
    return sample;
}

Sample no_ruler() {
    Sample sample = turned_single();
    sample.name = "forgot-the-ruler";
    sample.maker_says = "The same swatch, but the ruler stayed in the drawer: nothing can be measured";
    sample.shot.scene.rulers.clear();
    sample.shot.scene.camera.target_y_mm = 0.0;
    sample.shot.kind = "no-ruler";
    return sample;
}

}  // namespace

std::vector<Sample> sample_scenes() {
    return {turned_single(), round_single(), thick_half_double(), ribbed_brim(),
            tall_inches(),   ribbed_crown(), no_ruler()};
}

nlohmann::json sample_truth(const Sample& sample, const Truth& truth) {
    return {
        {"note",
         "Invented and rendered: no such stall, hat, yarn or maker exists. Truth is exact by construction."},
        {"maker_says", sample.maker_says},
        {"yarn", sample.yarn},
        {"hook_mm", sample.hook_mm},
        {"cases", cases_of(sample.name, sample.name + ".jpg", sample.shot, truth)}};
}

}  // namespace ridgetally::synthetic
