#include "synthetic/render.h"

#include <stdexcept>

#include "synthetic/fabric_tubes.h"
#include "synthetic/hairs.h"
#include "synthetic/lens.h"
#include "synthetic/ruler_face.h"
#include "synthetic/shade.h"
#include "synthetic/traps.h"

namespace ridgetally::synthetic {
namespace {

double gloss_of(RulerMake make) {
    switch (make) {
        case RulerMake::steel:
            return 0.9;
        case RulerMake::clear:
            return 0.7;
        case RulerMake::wood:
            return 0.25;
        default:
            return 0.4;
    }
}

void lay_ruler(Surfaces& surfaces, const Scene& scene, const Ruler& ruler, const Projector& projector) {
    const double photo_px_per_mm = projector.focal_px() / scene.camera.distance_mm;
    const Canvas face = ruler_face(ruler, std::clamp(1.1 * photo_px_per_mm * scene.supersampling, 6.0, 40.0));
    Slab slab;
    slab.table_from_canvas =
        centred_frame(ruler.centre_x_mm, ruler.centre_y_mm, ruler.angle_deg, ruler.length_mm, ruler.width_mm);
    slab.base_mm = ruler.base_mm;
    slab.thickness_mm = ruler.thickness_mm;
    slab.gloss = gloss_of(ruler.make);
    slab.sides = ruler.make == RulerMake::clear || ruler.thickness_mm < 0.3 ? Sides::none : Sides::box;
    slab.shadow_height = ruler.make == RulerMake::clear ? 0.15 : 1.0;
    const cv::Vec4b body = face.pixels(face.pixels.rows / 2, 2);
    slab.side = Colour(body[0], body[1], body[2]) * 0.7F;
    lay_slab(surfaces, face, slab, projector, scene.supersampling);
    if (!ruler.covered_mm) return;
    const auto [from, to] = *ruler.covered_mm;
    const Vec3 middle = on_table(ruler, 0.5 * (from + to), 0.5 * ruler.width_mm);
    const Canvas paper = blank_canvas(to - from, ruler.width_mm + 14.0, 4.0, {215, 232, 238}, 255);
    Slab slip = slab;
    slip.base_mm = ruler.base_mm + ruler.thickness_mm;
    slip.thickness_mm = 0.2;
    slip.sides = Sides::none;
    slip.shadow_height = 1.0;
    slip.gloss = 0.05;
    slip.table_from_canvas =
        centred_frame(middle.x, middle.y, ruler.angle_deg, paper.width_mm(), paper.height_mm());
    lay_slab(surfaces, paper, slip, projector, scene.supersampling);
}

/// Mean height of the yarn the camera sees.
std::vector<double> lifts(const Scene& scene, const Surfaces& surfaces, const TubeLayer& layer,
                          const std::vector<Tube>& tubes) {
    std::vector<double> sum(scene.fabrics.size(), 0.0), count(scene.fabrics.size(), 1e-9);
    for (int y = layer.roi.y; y < layer.roi.y + layer.roi.height; y += 3)
        for (int x = layer.roi.x; x < layer.roi.x + layer.roi.width; x += 3) {
            const int s = layer.at(x, y).segment;
            if (s < 0) continue;
            const auto f = static_cast<std::size_t>(
                tubes[static_cast<std::size_t>(layer.segments[static_cast<std::size_t>(s)].tube)].yarn);
            if (f >= sum.size()) continue;  // also no_yarn
            sum[f] += static_cast<double>(surfaces.height_mm(y, x));
            count[f] += 1.0;
        }
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] /= count[i];
    return sum;
}

Tube loose_tube(const LooseStrand& strand, int yarn_index) {
    Tube tube{{}, strand.colour, strand.make == LooseMake::smooth ? no_yarn : yarn_index, 1.0F};
    double along_mm = 0.0;
    for (std::size_t i = 0; i < strand.points.size(); ++i) {
        if (i > 0) along_mm += length(strand.points[i] - strand.points[i - 1]);
        tube.nodes.push_back({strand.points[i], strand.radius_mm, along_mm});
    }
    return tube;
}

}  // namespace

Picture render(const Scene& scene) {
    if (scene.supersampling < 1 || scene.camera.width_px < 16 || scene.camera.height_px < 16)
        throw std::invalid_argument("render: the picture needs at least 16 x 16 pixels and one sample each");
    const Projector projector(scene.camera);
    Picture out{{}, truth_of(scene)};
    Surfaces surfaces = table_surface(scene, projector);
    for (const Trap& trap : scene.traps) lay_trap(surfaces, scene, trap, projector);
    if (scene.order == Order::fabric_over_ruler)
        for (const Ruler& ruler : scene.rulers) lay_ruler(surfaces, scene, ruler, projector);

    std::vector<Tube> tubes;
    for (std::size_t i = 0; i < scene.fabrics.size(); ++i)
        for (Tube& t : fabric_tubes(scene.fabrics[i], static_cast<int>(i), 0.0))
            tubes.push_back(std::move(t));
    for (const Trap& trap : scene.traps)
        for (Tube& t : trap_tubes(trap, static_cast<int>(scene.fabrics.size())))
            tubes.push_back(std::move(t));
    for (const LooseStrand& strand : scene.strands)
        tubes.push_back(loose_tube(strand, static_cast<int>(scene.fabrics.size())));
    const TubeLayer layer =
        draw_tubes(tubes, projector, {scene.camera.width_px, scene.camera.height_px}, scene.supersampling);
    lay_tubes(surfaces, layer);
    out.truth.fabric_lift_mm = lifts(scene, surfaces, layer, tubes);

    if (scene.order == Order::ruler_over_fabric)
        for (const Ruler& ruler : scene.rulers) lay_ruler(surfaces, scene, ruler, projector);
    cv::Mat3f light = shaded(scene, projector, surfaces, layer, tubes);
    draw_hairs(light, scene, projector, tubes);
    out.bgr = developed(scene, projector, light);
    return out;
}

}  // namespace ridgetally::synthetic
