#include "pipeline/trace_pictures.h"

#include <array>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace ridgetally {
namespace {

using Curve = std::vector<cv::Point>;

cv::Point on_overview(const Photo& photo, const PhotoPoint& p) {
    const cv::Point2d at = photo.colour.from_photo({p.x, p.y});
    return {cvRound(at.x), cvRound(at.y)};
}

void draw_ridges(const Photo& photo, const Lattice& lattice, const std::vector<Ridge>& ridges,
                 const cv::Scalar& colour, cv::Mat& picture) {
    for (const auto& ridge : ridges) {
        Curve curve;
        for (const auto& p : ridge.points)
            curve.push_back(on_overview(photo, lattice.photo_from_rectified(p)));
        cv::polylines(picture, std::vector<Curve>{curve}, false, colour);
    }
}

}  // namespace

void trace_reference(const Photo& photo, const ScaleReference& reference, Trace& trace) {
    if (!trace.wants_pictures()) return;
    const std::array<cv::Scalar, 3> colours{cv::Scalar{0, 255, 0}, {255, 128, 0}, {0, 128, 255}};
    cv::Mat picture = photo.colour.bgr.clone();
    for (std::size_t i = 0; i < reference.lines.size(); ++i) {
        for (const auto& mark : reference.lines[i].marks) {
            cv::line(picture, on_overview(photo, mark.foot_px), on_overview(photo, mark.tip_px),
                     colours.at(i % colours.size()));
        }
    }
    Curve outline;
    for (const auto& p : reference.outline_px) outline.push_back(on_overview(photo, p));
    if (!outline.empty()) cv::polylines(picture, std::vector<Curve>{outline}, true, {0, 0, 255});
    trace.picture("reference-marks", picture);
}

void trace_search(const LatticeSearch& search, Trace& trace) {
    if (!trace.wants_pictures()) return;
    cv::Mat grey;
    search.patch.grey.convertTo(grey, CV_8U);
    trace.picture("rectified-fabric", grey & search.patch.mask);
}

void trace_ridges(const Photo& photo, const Lattice& lattice, Trace& trace) {
    if (!trace.wants_pictures()) return;
    cv::Mat picture = photo.colour.bgr.clone();
    draw_ridges(photo, lattice, lattice.row_ridges, {0, 255, 0}, picture);
    draw_ridges(photo, lattice, lattice.stitch_ridges, {0, 128, 255}, picture);
    trace.picture("ridges", picture);
}

}  // namespace ridgetally
