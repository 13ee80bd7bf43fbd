#include "synthetic/company.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "core/random.h"
#include "core/units.h"
#include "synthetic/fabric_grid.h"
#include "synthetic/stitch_paths.h"

namespace ridgetally::synthetic {
namespace {

using std::numbers::pi;

/// Height of a fabric's top, in yarn radii (weaving.cpp: two strands, each about four radii with its relief).
constexpr double top_radii = 4.0;

/// The first fabric's own frame: millimetres from its middle, x along a row.
class FabricFrame {
  public:
    explicit FabricFrame(const Fabric& fabric)
        : fabric_(fabric), size_(FabricGrid(fabric).truth()), turn_(fabric.angle_deg / degrees_per_radian) {}

    [[nodiscard]] double half_width() const { return 0.5 * size_.width_mm; }
    [[nodiscard]] double half_height() const { return 0.5 * size_.height_mm; }
    [[nodiscard]] double yarn_radius() const { return fabric_.yarn_radius_ratio * fabric_.stitch_pitch_mm; }
    [[nodiscard]] double top_mm() const { return top_radii * yarn_radius(); }
    [[nodiscard]] Vec3 at(double x, double y, double z) const {
        return {fabric_.centre_x_mm + std::cos(turn_) * x - std::sin(turn_) * y,
                fabric_.centre_y_mm + std::sin(turn_) * x + std::cos(turn_) * y, z};
    }
    /// 1 or -1: the side of the fabric on which the ruler does not lie.
    [[nodiscard]] double free_side(const Ruler& ruler, Vec3 axis) const {
        const Vec3 way = at(axis.x, axis.y, 0.0) - at(0.0, 0.0, 0.0);
        const Vec3 to_ruler{ruler.centre_x_mm - fabric_.centre_x_mm, ruler.centre_y_mm - fabric_.centre_y_mm,
                            0.0};
        return dot(way, to_ruler) > 0.0 ? -1.0 : 1.0;
    }

  private:
    const Fabric& fabric_;
    FabricTruth size_;
    double turn_;
};

LooseStrand hook(const Vec3& from, const Vec3& to, Random& random) {
    const std::vector<Colour> colours{{190, 195, 200}, {60, 60, 200}, {170, 120, 60}, {120, 175, 205}};
    return {{from, to},
            random.uniform(1.5, 3.5),
            colours[static_cast<std::size_t>(random.whole(0, static_cast<int>(colours.size()) - 1))],
            LooseMake::smooth};
}

/// Skin of many tones; adult finger tips are 14 to 18 mm across (common practice, no source).
LooseStrand finger(const Vec3& from, const Vec3& to, const Colour& skin, double radius_mm) {
    return {{from, to}, radius_mm, skin, LooseMake::smooth};
}

/// A line that bends this way and that, one point every 5 mm.
LooseStrand crumpled(const FabricFrame& frame, Vec3 from, double heading_rad, double length_mm,
                     Random& random) {
    std::vector<Vec3> path;
    double heading = heading_rad;
    for (double gone = 0.0; gone < length_mm; gone += 5.0) {
        path.push_back(frame.at(from.x, from.y, from.z));
        heading = heading_rad + 1.2 * std::sin(gone / 9.0) + random.normal(0.0, 0.25);
        from = from + Vec3{5.0 * std::cos(heading), 5.0 * std::sin(heading), 0.0};
    }
    return {smooth_curve(path, 6), frame.yarn_radius(), {}, LooseMake::yarn};
}

LooseStrand loop(const FabricFrame& frame, double x_side, double y_side, Random& random) {
    const double a = random.uniform(9.0, 22.0), b = random.uniform(8.0, 16.0);
    const double x = x_side * (frame.half_width() + 0.6 * a), y = y_side * (frame.half_height() - 0.3 * b);
    std::vector<Vec3> path;
    for (int k = 0; k <= 24; ++k) {
        const double angle = 2.0 * pi * k / 24.0;
        path.push_back(frame.at(x + a * std::cos(angle), y + b * std::sin(angle), frame.yarn_radius()));
    }
    return {smooth_curve(path, 4), frame.yarn_radius(), {}, LooseMake::yarn};
}

}  // namespace

std::optional<Company> company_from(const std::string& name) {
    static const std::map<std::string, Company> names{{"none", Company::none},
                                                      {"hook-on", Company::hook_on},
                                                      {"hook-beside", Company::hook_beside},
                                                      {"fingers", Company::fingers},
                                                      {"tail-across", Company::tail_across},
                                                      {"tail-loop", Company::tail_loop}};
    const auto found = names.find(name);
    return found == names.end() ? std::nullopt : std::optional(found->second);
}

void add_company(Scene& scene, Company company, std::uint64_t seed) {
    if (company == Company::none) return;
    Random random(seed * 104729 + 41);
    Fabric& fabric = scene.fabrics.front();
    const FabricFrame frame(fabric);
    const Ruler& ruler = scene.rulers.front();
    const double w = frame.half_width(), h = frame.half_height(), top = frame.top_mm();
    const double side_x = frame.free_side(ruler, {1, 0, 0}), side_y = frame.free_side(ruler, {0, 1, 0});
    LooseStrand strand;
    if (company == Company::hook_on) {
        const double angle = random.uniform(0.0, pi), x = random.uniform(-0.4, 0.4) * w;
        const double y = random.uniform(-0.4, 0.4) * h;
        strand = hook({}, {}, random);
        const double z = top + strand.radius_mm;
        strand.points = {frame.at(x - 70.0 * std::cos(angle), y - 70.0 * std::sin(angle), z),
                         frame.at(x + 70.0 * std::cos(angle), y + 70.0 * std::sin(angle), z)};
    } else if (company == Company::hook_beside) {
        strand = hook({}, {}, random);
        const double gap = random.uniform(1.0, 8.0) + strand.radius_mm;
        strand.points = {frame.at(side_x * (w + gap), -60.0, strand.radius_mm),
                         frame.at(side_x * (w + gap), 80.0, strand.radius_mm)};
    } else if (company == Company::fingers) {
        const std::vector<Colour> skins{{150, 175, 220}, {120, 150, 200}, {70, 95, 140}, {40, 55, 85}};
        const Colour skin = skins[static_cast<std::size_t>(random.whole(0, 3))];
        const double radius = random.uniform(7.0, 9.0), z = top + radius;
        for (const double offset : {0.0, 2.1 * radius})
            scene.strands.push_back(finger(frame.at(side_x * (w - 12.0), side_y * (h - 8.0 - offset), z),
                                           frame.at(side_x * (w + 130.0), side_y * (h + 50.0 - offset), z),
                                           skin, radius));
        return;
    } else if (company == Company::tail_across) {
        fabric.tail = false;
        strand = crumpled(frame, {-w, random.uniform(-0.6, 0.6) * h, top + frame.yarn_radius()},
                          random.uniform(-0.4, 0.4), random.uniform(60.0, 140.0), random);
        strand.colour = fabric.yarn.colours.front();
    } else {
        fabric.tail = false;
        strand = loop(frame, side_x, side_y, random);
        strand.colour = fabric.yarn.colours.front();
    }
    scene.strands.push_back(strand);
}

}  // namespace ridgetally::synthetic
