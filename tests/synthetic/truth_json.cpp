#include "synthetic/truth_json.h"

#include <cmath>

namespace ridgetally::synthetic {
namespace {

using nlohmann::json;

const char* name_of(RulerMake make) {
    switch (make) {
        case RulerMake::steel:
            return "steel";
        case RulerMake::wood:
            return "wood";
        case RulerMake::clear:
            return "clear";
        case RulerMake::tape:
            return "tape";
        case RulerMake::black:
            return "black";
        case RulerMake::white:
            return "white";
    }
    return "";
}

std::string edges_of(const Ruler& ruler) {
    std::string out;
    for (const auto& g : {ruler.upper, ruler.lower})
        if (g) out += (out.empty() ? "" : " ") + std::string(g->inch ? "inch" : "mm");
    return out;
}

/// The stretch of the ruler to be read: on the metric edge where there is one, else the longest.
json segments_of(const Truth& truth) {
    const RulerSegment* best = nullptr;
    for (const auto& s : truth.segments)
        if (best == nullptr || (best->inch && !s.inch) || (best->inch == s.inch && s.mm > best->mm))
            best = &s;
    if (best == nullptr) return json::array();
    return json::array(
        {{{"p", {best->p_px.x, best->p_px.y}}, {"q", {best->q_px.x, best->q_px.y}}, {"mm", best->mm}}});
}

json facts_of(const std::string& id, const std::string& file, const Shot& shot, const Truth& truth) {
    const Scene& scene = shot.scene;
    json c{{"id", id},
           {"file", file},
           {"kind", shot.kind},
           {"stitch", "-"},
           {"worked", "-"},
           {"exif", shot.jpeg.focal35_mm.has_value()},
           {"tilt_deg", truth.tilt_deg},
           {"focal_px", truth.focal_px},
           {"camera_distance_mm", truth.camera_distance_mm},
           {"width_px", scene.camera.width_px},
           {"height_px", scene.camera.height_px}};
    if (!scene.fabrics.empty()) {
        const Fabric& f = scene.fabrics.front();
        c["stitch"] = std::string(key_of(f.family));
        c["worked"] = std::string(key_of(f.worked));
        c["colour"] = f.yarn.name;
        c["unevenness"] = f.unevenness;
        c["row_direction_deg"] = f.angle_deg - scene.camera.roll_deg;
        c["yarn_diameter_mm"] = 2.0 * f.yarn_radius_ratio * f.stitch_pitch_mm;
        c["fabric_width_mm"] = truth.fabrics.front().width_mm;
        c["fabric_height_mm"] = truth.fabrics.front().height_mm;
        if (!truth.fabric_lift_mm.empty()) c["fabric_lift_mm"] = truth.fabric_lift_mm.front();
        json outline = json::array();
        for (const auto& p : truth.fabric_outlines_px.front())
            outline.push_back({std::round(10.0 * p.x) / 10.0, std::round(10.0 * p.y) / 10.0});
        c["outline_px"] = outline;
        if (shot.partial) c["partial"] = true;
    }
    if (!scene.rulers.empty()) {
        const Ruler& r = scene.rulers.front();
        c["ruler"] = name_of(r.make);
        c["ruler_edges"] = edges_of(r);
        c["ruler_thickness_mm"] = truth.ruler_face_mm.front();
        c["ruler_over_fabric"] = scene.order == Order::ruler_over_fabric;
    }
    return c;
}

json crown_case(json c, const CrownTruth& crown) {
    c["command"] = "crown";
    c["round_stitches"] = crown.stitches;
    c["diameter_min_mm"] = crown.diameter_min_mm;
    c["diameter_max_mm"] = crown.diameter_max_mm;
    c["truth"] = {{"diameter_mm", crown.diameter_mm},
                  {"rounds", crown.rounds},
                  {"last_round_stitches", crown.stitches.back()}};
    return c;
}

}  // namespace

json cases_of(const std::string& id, const std::string& file, const Shot& shot, const Truth& truth) {
    json swatch = facts_of(id, file, shot, truth);
    if (shot.kind == "crown") return json::array({crown_case(swatch, truth.crowns.front())});
    swatch["command"] = "swatch";
    if (shot.kind != "swatch") {
        swatch["expect"] = "refusal";
        swatch["truth"] = json::object();
        return json::array({swatch});
    }
    const FabricTruth& f = truth.fabrics.front();
    swatch["truth"] = {{"stitches_per_10cm", f.stitches_per_10cm()}, {"rows_per_10cm", f.rows_per_10cm()}};
    if (!shot.partial) {
        swatch["truth"]["stitches"] = f.stitches;
        swatch["truth"]["rows"] = f.rows;
    }
    json cases = json::array({swatch});
    if (const json segments = segments_of(truth); !segments.empty()) {
        json scale = facts_of(id + "_scale", file, shot, truth);
        scale.erase("outline_px");
        scale["command"] = "scale";
        scale["truth"] = {{"segments", segments}};
        cases.push_back(scale);
    }
    return cases;
}

}  // namespace ridgetally::synthetic
