#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "synthetic/render.h"
#include "synthetic/ruler_face.h"

namespace ridgetally::synthetic {
namespace {

std::vector<cv::Point2d> outline_of(const Fabric& fabric, const Projector& projector) {
    const FabricGrid grid(fabric);
    std::vector<cv::Point2d> out;
    const auto add = [&](double stitch, double row) {
        Vec3 p = grid.at(stitch, row);
        p.z += 3.2 * fabric.yarn_radius_ratio * fabric.stitch_pitch_mm;
        out.push_back(projector.photo(p));
    };
    for (int i = 0; i < fabric.stitches; ++i) add(i, fabric.rows);
    for (int j = fabric.rows; j > 0; --j) add(fabric.stitches, j);
    for (int i = fabric.stitches; i > 0; --i) add(i, 0);
    for (int j = 0; j < fabric.rows; ++j) add(0, j);
    return out;
}

std::vector<cv::Point2d> outline_of(const CrownTruth& crown, const Fabric& fabric,
                                    const Projector& projector) {
    std::vector<cv::Point2d> out;
    const double rim_mm = 1.5 * fabric.yarn_radius_ratio * fabric.stitch_pitch_mm;
    for (std::size_t i = 0; i < crown.outline_mm.size(); i += 8)
        out.push_back(projector.photo({crown.outline_mm[i].x, crown.outline_mm[i].y, rim_mm}));
    return out;
}

double share_in_frame(const std::vector<cv::Point2d>& outline, const Camera& camera) {
    std::vector<cv::Point2f> polygon(outline.begin(), outline.end());
    std::vector<cv::Point2f> hull;
    cv::convexHull(polygon, hull);
    const auto w = static_cast<float>(camera.width_px), h = static_cast<float>(camera.height_px);
    const std::vector<cv::Point2f> frame{{0, 0}, {w, 0}, {w, h}, {0, h}};
    std::vector<cv::Point2f> common;
    const float area = cv::intersectConvexConvex(hull, frame, common);
    return area / cv::contourArea(hull);
}

bool under_fabric(const std::vector<std::vector<cv::Point2d>>& outlines, const cv::Point2d& at) {
    return std::any_of(outlines.begin(), outlines.end(), [&](const auto& outline) {
        const std::vector<cv::Point2f> polygon(outline.begin(), outline.end());
        return cv::pointPolygonTest(polygon, at, true) > -4.0;
    });
}

/// The longest run of whole cm (or inches) whose marks the photo shows.
std::optional<RulerSegment> segment_of(const Scene& scene, const Projector& projector, const Truth& truth,
                                       const Ruler& ruler, const Graduation& graduation, double y_mm) {
    const int step = graduation.inch ? graduation.divisions : 10 * graduation.divisions;
    const auto place = [&](int i) {
        Vec3 p = on_table(ruler, mark_place_mm(ruler, graduation, i), y_mm);
        p.z = ruler.base_mm + ruler.thickness_mm;
        return projector.photo(p);
    };
    const auto seen = [&](int i) {
        const cv::Point2d p = place(i);
        const double x = mark_place_mm(ruler, graduation, i);
        if (ruler.covered_mm && x > (*ruler.covered_mm)[0] - 1.0 && x < (*ruler.covered_mm)[1] + 1.0)
            return false;
        if (p.x < 3 || p.y < 3 || p.x > scene.camera.width_px - 4 || p.y > scene.camera.height_px - 4)
            return false;
        return scene.order == Order::ruler_over_fabric || !under_fabric(truth.fabric_outlines_px, p);
    };
    std::optional<std::pair<int, int>> best;
    const int count = mark_count(ruler, graduation);
    for (int from = 0; from < count; from += step) {
        int to = from;
        while (to < count && seen(to)) to += step;
        to -= step;
        if (to > from && (!best || to - from > best->second - best->first)) best = {from, to};
    }
    if (!best) return std::nullopt;
    return RulerSegment{place(best->first), place(best->second),
                        (best->second - best->first) * mark_spacing_mm(graduation), graduation.inch};
}

}  // namespace

Truth truth_of(const Scene& scene) {
    const Projector projector(scene.camera);
    Truth truth;
    truth.tilt_deg = projector.tilt_deg();
    truth.focal_px = projector.focal_px();
    truth.camera_distance_mm = scene.camera.distance_mm;
    for (const Fabric& fabric : scene.fabrics) {
        truth.fabrics.push_back(fabric.crown ? FabricTruth{} : FabricGrid(fabric).truth());
        truth.crowns.push_back(fabric.crown ? crown_truth(fabric) : CrownTruth{});
        truth.fabric_outlines_px.push_back(fabric.crown ? outline_of(truth.crowns.back(), fabric, projector)
                                                        : outline_of(fabric, projector));
        truth.fabric_in_frame.push_back(share_in_frame(truth.fabric_outlines_px.back(), scene.camera));
    }
    for (const Ruler& ruler : scene.rulers) {
        truth.ruler_face_mm.push_back(ruler.base_mm + ruler.thickness_mm);
        const auto add = [&](const std::optional<Graduation>& graduation, double y_of_marks) {
            if (!graduation) return;
            if (const auto s = segment_of(scene, projector, truth, ruler, *graduation, y_of_marks))
                truth.segments.push_back(*s);
        };
        if (ruler.upper) add(ruler.upper, 0.3 * ruler.upper->longest_mm);
        if (ruler.lower) add(ruler.lower, ruler.width_mm - 0.3 * ruler.lower->longest_mm);
    }
    return truth;
}

}  // namespace ridgetally::synthetic
