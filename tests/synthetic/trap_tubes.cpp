#include <cmath>
#include <numbers>

#include "core/random.h"
#include "core/units.h"
#include "synthetic/trap_faces.h"
#include "synthetic/traps.h"

namespace ridgetally::synthetic {
namespace {

constexpr double pi = std::numbers::pi;

/// A point of the thing (mm from its corner, height above the table) in the scene.
class Frame {
  public:
    explicit Frame(const Trap& trap)
        : map_(centred_frame(trap.centre_x_mm, trap.centre_y_mm, trap.angle_deg, trap.width_mm,
                             trap.height_mm)) {}
    [[nodiscard]] Vec3 at(double x_mm, double y_mm, double z_mm) const {
        const cv::Vec2d p = map_ * cv::Vec3d(x_mm, y_mm, 1.0);
        return {p[0], p[1], z_mm};
    }

  private:
    cv::Matx23d map_;
};

void extend(Tube& tube, const Vec3& at, double radius_mm) {
    const double along =
        tube.nodes.empty() ? 0.0 : tube.nodes.back().along_mm + length(at - tube.nodes.back().at);
    tube.nodes.push_back({at, radius_mm, along});
}

std::vector<Tube> yarn_ball(const Trap& trap, int yarn_index, Random& random) {
    std::vector<Tube> tubes;
    const double radius = 0.5 * trap.width_mm, yarn = 1.6;
    for (int turn = 0; turn < 160; ++turn) {  // great circles about random axes, wound outwards
        const Vec3 axis = unit({random.normal(0, 1), random.normal(0, 1), random.normal(0, 1)});
        const Vec3 one = unit(cross(axis, std::abs(axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0})),
                   two = cross(axis, one);
        const double r = radius * (0.9 + 0.1 * turn / 160.0);
        Tube tube{{}, varied(trap.colour, random, 0.03), yarn_index, 1.0F};
        for (int k = 0; k <= 64; ++k) {
            const double a = 2.0 * pi * k / 64.0;
            const Vec3 at = r * (std::cos(a) * one + std::sin(a) * two) +
                            Vec3{trap.centre_x_mm, trap.centre_y_mm, radius};
            tube.nodes.push_back({at, yarn, r * a});
        }
        tubes.push_back(std::move(tube));
    }
    return tubes;
}

/// A scarf of thick yarn in plain weave: every thread goes over and under.
std::vector<Tube> hand_woven(const Trap& trap, int yarn_index, Random& random) {
    const Frame frame(trap);
    const double pitch = random.uniform(4.0, 8.0), radius = 0.42 * pitch;
    const Colour weft = varied({150, 175, 190}, random, 0.2);
    std::vector<Tube> tubes;
    const auto thread = [&](double fixed, bool along_x, int index) {
        Tube tube{{}, varied(along_x ? weft : trap.colour, random, 0.04), yarn_index, 1.0F};
        const double whole = along_x ? trap.width_mm : trap.height_mm;
        for (double t = 0.0; t <= whole; t += 0.25 * pitch) {
            const double over =
                std::cos(pi * t / pitch) * (index % 2 == 0 ? 1.0 : -1.0) * (along_x ? 1.0 : -1.0);
            const double z = radius * (1.6 + 0.7 * over);
            extend(tube, along_x ? frame.at(t, fixed, z) : frame.at(fixed, t, z), radius);
        }
        tubes.push_back(std::move(tube));
    };
    int index = 0;
    for (double y = 0.0; y < trap.height_mm; y += pitch) thread(y, true, index++);
    index = 0;
    for (double x = 0.0; x < trap.width_mm; x += pitch) thread(x, false, index++);
    return tubes;
}

/// Wire bent in zigzags that hook into each other, as a fence or a bag of fruit has it.
std::vector<Tube> net(const Trap& trap, int yarn_index, Random& random) {
    const Frame frame(trap);
    const double mesh = random.uniform(6.0, 14.0), radius = 0.07 * mesh;
    std::vector<Tube> tubes;
    for (double x = 0.0; x < trap.width_mm; x += mesh) {
        Tube tube{{}, varied(trap.colour, random, 0.04), yarn_index, 1.0F};
        int turn = 0;
        for (double y = 0.0; y < trap.height_mm; y += 0.5 * mesh, ++turn)
            extend(
                tube,
                frame.at(x + (turn % 2 == 0 ? -0.55 : 0.55) * mesh, y, radius * (turn % 2 == 0 ? 1.0 : 2.4)),
                radius);
        tubes.push_back(std::move(tube));
    }
    return tubes;
}

/// A mat of rope laid in a spiral: rounds, but no stitches.
std::vector<Tube> rope_coil(const Trap& trap, int yarn_index, Random& random) {
    const Frame frame(trap);
    const double rope = random.uniform(5.0, 9.0), outer = 0.5 * std::min(trap.width_mm, trap.height_mm);
    Tube tube{{}, trap.colour, yarn_index, 1.0F};
    for (double turn = 0.4; turn * rope < outer; turn += 0.02 / turn) {
        const double a = 2.0 * pi * turn;
        extend(tube,
               frame.at(0.5 * trap.width_mm + turn * rope * std::cos(a),
                        0.5 * trap.height_mm + turn * rope * std::sin(a), 0.5 * rope),
               0.5 * rope);
    }
    return {tube};
}

/// The parts of tubes that lie inside the largest circle.
std::vector<Tube> cut_round(const std::vector<Tube>& whole, const Trap& trap) {
    const double radius = 0.5 * std::min(trap.width_mm, trap.height_mm);
    std::vector<Tube> parts;
    for (const Tube& tube : whole) {
        Tube part = tube;
        part.nodes.clear();
        for (const auto& node : tube.nodes) {
            if (std::hypot(node.at.x - trap.centre_x_mm, node.at.y - trap.centre_y_mm) <= radius) {
                part.nodes.push_back(node);
            } else if (!part.nodes.empty()) {
                parts.push_back(part);
                part.nodes.clear();
            }
        }
        if (!part.nodes.empty()) parts.push_back(std::move(part));
    }
    return parts;
}

std::vector<Tube> whole_tubes(const Trap& trap, int yarn_index) {
    Random random(trap.seed * 5 + 2);
    switch (trap.make) {
        case TrapMake::yarn_ball:
            return yarn_ball(trap, yarn_index, random);
        case TrapMake::hand_woven:
            return hand_woven(trap, yarn_index, random);
        case TrapMake::net:
            return net(trap, yarn_index, random);
        case TrapMake::rope_coil:
            return rope_coil(trap, yarn_index, random);
        default:
            return {};
    }
}

}  // namespace

std::vector<Tube> trap_tubes(const Trap& trap, int yarn_index) {
    std::vector<Tube> tubes = whole_tubes(trap, yarn_index);
    return trap.outline == TrapOutline::round ? cut_round(tubes, trap) : tubes;
}

}  // namespace ridgetally::synthetic
