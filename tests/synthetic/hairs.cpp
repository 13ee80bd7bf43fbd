#include "synthetic/hairs.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/random.h"

namespace ridgetally::synthetic {
namespace {

using std::numbers::pi;

float linear(float srgb) { return std::pow(std::clamp(srgb / 255.0F, 0.0F, 1.0F), 2.2F); }

}  // namespace

void draw_hairs(cv::Mat3f& light, const Scene& scene, const Projector& projector,
                const std::vector<Tube>& tubes) {
    Random random(scene.seed * 17 + 11);
    cv::Mat1b ink = cv::Mat1b::zeros(light.size());
    cv::Mat3f tint(light.size(), cv::Vec3f(0, 0, 0));
    for (const Tube& tube : tubes) {
        if (tube.nodes.empty() || scene.fabrics.empty() || tube.yarn == no_yarn) continue;
        const Yarn& yarn = scene.fabrics[static_cast<std::size_t>(tube.yarn) % scene.fabrics.size()].yarn;
        const double expected = yarn.fuzz * (tube.nodes.back().along_mm - tube.nodes.front().along_mm);
        const int count = static_cast<int>(expected + random.uniform(0.0, 1.0));
        for (int i = 0; i < count; ++i) {
            const TubeNode& root = tube.nodes[static_cast<std::size_t>(
                random.whole(0, static_cast<int>(tube.nodes.size()) - 1))];
            double heading = random.uniform(0.0, 2.0 * pi);
            const double bend = random.normal(0.0, 0.5), step = root.radius_mm * random.uniform(0.2, 0.6);
            Vec3 at = root.at + Vec3{0, 0, root.radius_mm * 0.8};
            std::vector<cv::Point> line;
            for (int k = 0; k < 6; ++k) {
                const Projected p = projector.pinhole(at);
                line.emplace_back(cvRound(p.x * 16), cvRound(p.y * 16));
                heading += bend;
                at = at + Vec3{step * std::cos(heading), step * std::sin(heading), 0.05 * step};
            }
            const cv::Rect frame(0, 0, light.cols, light.rows);
            if (!frame.contains({line.front().x / 16, line.front().y / 16})) continue;
            cv::polylines(ink, line, false, cv::Scalar(random.whole(25, 70)), 1, cv::LINE_AA, 4);
            const cv::Scalar colour(linear(tube.colour[0]), linear(tube.colour[1]), linear(tube.colour[2]));
            cv::polylines(tint, line, false, colour, 3, cv::LINE_8, 4);
        }
    }
    const auto strength = static_cast<float>(scene.light.exposure * 1.05);
    for (int y = 0; y < light.rows; ++y)
        for (int x = 0; x < light.cols; ++x)
            if (const uchar a = ink(y, x); a > 0) {
                const float k = static_cast<float>(a) / 255.0F;
                light(y, x) += k * (strength * tint(y, x) - light(y, x));
            }
}

}  // namespace ridgetally::synthetic
