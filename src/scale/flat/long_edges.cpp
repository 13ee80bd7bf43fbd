#include "scale/flat/long_edges.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

struct Segment {
    cv::Point2d a;
    cv::Point2d b;
    double length = 0.0;
};

std::vector<Segment> segments_of(const cv::Mat& bgr, double least_px) {
    cv::Mat lab;
    cv::cvtColor(bgr, lab, cv::COLOR_BGR2Lab);
    std::vector<cv::Mat> channels;
    cv::split(lab, channels);
    const auto detector = cv::createLineSegmentDetector(cv::LSD_REFINE_STD);
    std::vector<Segment> segments;
    for (std::size_t i = 0; i < channels.size(); ++i) {
        cv::Mat channel = channels[i];
        // Colour differences span a quarter of the range that brightness does.
        if (i > 0) channel.convertTo(channel, CV_8U, 3.0, -2.0 * 128.0);
        std::vector<cv::Vec4f> found;
        detector->detect(channel, found);
        for (const auto& s : found) {
            Segment segment{{s[0], s[1]}, {s[2], s[3]}, 0.0};
            segment.length = cv::norm(segment.b - segment.a);
            if (segment.length >= least_px) segments.push_back(segment);
        }
    }
    std::stable_sort(segments.begin(), segments.end(),
                     [](const Segment& x, const Segment& y) { return x.length > y.length; });
    return segments;
}

bool lies_on(const Segment& segment, const LongEdge& edge) {
    constexpr double near_px = 2.5;
    const auto off = [&](const cv::Point2d& p) { return std::abs(edge.along.cross(p - edge.through)); };
    return off(segment.a) < near_px && off(segment.b) < near_px;
}

void add(LongEdge& edge, const Segment& segment) {
    double from = edge.along.dot(segment.a - edge.through);
    double to = edge.along.dot(segment.b - edge.through);
    if (from > to) std::swap(from, to);
    edge.stretches.emplace_back(from, to);
}

void merge_stretches(LongEdge& edge) {
    std::sort(edge.stretches.begin(), edge.stretches.end(),
              [](const cv::Point2d& a, const cv::Point2d& b) { return a.x < b.x; });
    std::vector<cv::Point2d> merged;
    for (const auto& s : edge.stretches) {
        if (!merged.empty() && s.x <= merged.back().y) {
            merged.back().y = std::max(merged.back().y, s.y);
        } else {
            merged.push_back(s);
        }
    }
    edge.stretches = std::move(merged);
    edge.length_px = 0.0;
    for (const auto& s : edge.stretches) edge.length_px += s.y - s.x;
}

}  // namespace

std::vector<LongEdge> long_edges(const cv::Mat& bgr, double least_px, std::size_t most) {
    std::vector<LongEdge> edges;
    for (const auto& segment : segments_of(bgr, least_px)) {
        const auto same = std::find_if(edges.begin(), edges.end(),
                                       [&](const LongEdge& edge) { return lies_on(segment, edge); });
        if (same != edges.end()) {
            add(*same, segment);
            continue;
        }
        if (edges.size() >= 4 * most) continue;
        LongEdge edge;
        edge.through = segment.a;
        edge.along = (segment.b - segment.a) * (1.0 / segment.length);
        add(edge, segment);
        edges.push_back(std::move(edge));
    }
    for (auto& edge : edges) merge_stretches(edge);
    std::stable_sort(edges.begin(), edges.end(),
                     [](const LongEdge& a, const LongEdge& b) { return a.length_px > b.length_px; });
    if (edges.size() > most) edges.resize(most);
    return edges;
}

double coverage(const LongEdge& edge, double a, double b) {
    if (a > b) std::swap(a, b);
    if (!(b > a)) return 0.0;
    double covered = 0.0;
    for (const auto& s : edge.stretches) covered += std::max(0.0, std::min(b, s.y) - std::max(a, s.x));
    return covered / (b - a);
}

}  // namespace ridgetally
