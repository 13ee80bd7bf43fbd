#include "synthetic/tubes.h"

#include <algorithm>
#include <cmath>

namespace ridgetally::synthetic {
namespace {

struct ScreenNode {
    double x, y, depth, radius;
};

ScreenNode on_screen(const TubeNode& node, const Projector& projector, int ss) {
    const Projected p = projector.pinhole(node.at);
    const double scale = projector.focal_px() / p.depth_mm * ss;
    return {(p.x + 0.5) * ss - 0.5, (p.y + 0.5) * ss - 0.5, p.depth_mm, node.radius_mm * scale};
}

cv::Rect bounds(const TubeSegment& s) {
    const float r = std::max(s.radius_a, s.radius_b);
    const int x0 = static_cast<int>(std::ceil(std::min(s.ax, s.bx) - r));
    const int y0 = static_cast<int>(std::ceil(std::min(s.ay, s.by) - r));
    const int x1 = static_cast<int>(std::floor(std::max(s.ax, s.bx) + r));
    const int y1 = static_cast<int>(std::floor(std::max(s.ay, s.by) + r));
    return {x0, y0, x1 - x0 + 1, y1 - y0 + 1};
}

std::vector<TubeSegment> segments_of(const std::vector<Tube>& tubes, const Projector& projector, int ss) {
    std::vector<TubeSegment> out;
    for (std::size_t i = 0; i < tubes.size(); ++i) {
        const auto& nodes = tubes[i].nodes;
        for (std::size_t k = 0; k + 1 < nodes.size(); ++k) {
            const ScreenNode a = on_screen(nodes[k], projector, ss),
                             b = on_screen(nodes[k + 1], projector, ss);
            const auto f = [](double v) { return static_cast<float>(v); };
            out.push_back({f(a.x), f(a.y), f(b.x), f(b.y), f(a.depth), f(b.depth), f(a.radius), f(b.radius),
                           f(0.5 * (nodes[k].radius_mm + nodes[k + 1].radius_mm)), f(nodes[k].along_mm),
                           f(nodes[k + 1].along_mm), f(nodes[k].at.z), f(nodes[k + 1].at.z),
                           static_cast<int>(i)});
        }
    }
    return out;
}

void draw_segment(TubeLayer& layer, int index) {
    const TubeSegment& s = layer.segments[static_cast<std::size_t>(index)];
    const cv::Rect box = bounds(s) & layer.roi;
    const float dx = s.bx - s.ax, dy = s.by - s.ay;
    const float norm = 1.0F / std::max(dx * dx + dy * dy, 1e-6F);
    for (int y = box.y; y < box.y + box.height; ++y) {
        TubeSample* row = &layer.samples[static_cast<std::size_t>(y - layer.roi.y) *
                                         static_cast<std::size_t>(layer.roi.width)];
        const float py = static_cast<float>(y) - s.ay;
        for (int x = box.x; x < box.x + box.width; ++x) {
            const float px = static_cast<float>(x) - s.ax;
            const float t = std::clamp((px * dx + py * dy) * norm, 0.0F, 1.0F);
            const float r = 1.0F / (s.radius_a + t * (s.radius_b - s.radius_a));
            const float qx = (px - t * dx) * r, qy = (py - t * dy) * r;
            const float q2 = qx * qx + qy * qy;
            if (q2 >= 1.0F) continue;
            const float depth = s.depth_a + t * (s.depth_b - s.depth_a) - s.radius_mm * std::sqrt(1.0F - q2);
            TubeSample& sample = row[x - layer.roi.x];
            if (sample.segment < 0 || depth < sample.depth) sample = {depth, qx, qy, t, index};
        }
    }
}

}  // namespace

TubeLayer draw_tubes(const std::vector<Tube>& tubes, const Projector& projector, const cv::Size& size,
                     int ss) {
    TubeLayer layer;
    layer.segments = segments_of(tubes, projector, ss);
    for (const auto& s : layer.segments) layer.roi = layer.roi.empty() ? bounds(s) : (layer.roi | bounds(s));
    layer.roi &= cv::Rect(0, 0, size.width * ss, size.height * ss);
    layer.samples.assign(static_cast<std::size_t>(layer.roi.area()), TubeSample{0, 0, 0, 0, -1});
    for (int i = 0; i < static_cast<int>(layer.segments.size()); ++i) draw_segment(layer, i);
    return layer;
}

}  // namespace ridgetally::synthetic
