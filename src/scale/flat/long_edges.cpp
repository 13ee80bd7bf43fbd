#include "scale/flat/long_edges.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

/// Beyond this an edge is as plain as can be.
constexpr double most_contrast = 40.0;
constexpr int directions = 12;
/// Lines to which further segments are joined; a bound on the work for pictures full of texture.
constexpr std::size_t most_tracked = 600;

struct Segment {
    cv::Point2d a;
    cv::Point2d b;
    double length = 0.0;
    double weight = 0.0;
};

/// Largest difference of a channel's means 2 px to either side of the segment.
double contrast_of(const cv::Mat& bgr, const Segment& segment) {
    constexpr int samples = 12;
    constexpr double aside_px = 2.0;
    const cv::Point2d along = (segment.b - segment.a) * (1.0 / segment.length);
    const cv::Point2d aside = cv::Point2d(-along.y, along.x) * aside_px;
    cv::Vec3d difference;
    for (int i = 0; i < samples; ++i) {
        const cv::Point2d p = segment.a + (segment.b - segment.a) * ((i + 0.5) / samples);
        const auto colour = [&](const cv::Point2d& q) {
            const int x = std::clamp(cvRound(q.x), 0, bgr.cols - 1);
            const int y = std::clamp(cvRound(q.y), 0, bgr.rows - 1);
            return cv::Vec3d(bgr.at<cv::Vec3b>(y, x));
        };
        difference += (colour(p + aside) - colour(p - aside)) * (1.0 / samples);
    }
    return std::max({std::abs(difference[0]), std::abs(difference[1]), std::abs(difference[2])});
}

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
            if (segment.length < least_px) continue;
            segment.weight = segment.length * std::min(contrast_of(bgr, segment), most_contrast);
            segments.push_back(segment);
        }
    }
    std::stable_sort(segments.begin(), segments.end(),
                     [](const Segment& x, const Segment& y) { return x.weight > y.weight; });
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
    edge.weight += segment.weight;
}

int direction_of(const LongEdge& edge) {
    const double turn = std::atan2(edge.along.y, edge.along.x) / CV_PI + 1.0;  // 0 to 2, the same modulo 1
    return static_cast<int>(std::floor((turn - std::floor(turn)) * directions)) % directions;
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
        if (edges.size() >= most_tracked) continue;
        LongEdge edge;
        edge.through = segment.a;
        edge.along = (segment.b - segment.a) * (1.0 / segment.length);
        add(edge, segment);
        edges.push_back(std::move(edge));
    }
    for (auto& edge : edges) merge_stretches(edge);
    std::stable_sort(edges.begin(), edges.end(),
                     [](const LongEdge& a, const LongEdge& b) { return a.weight > b.weight; });
    std::array<std::size_t, directions> kept_of{};
    std::vector<LongEdge> kept;
    for (auto& edge : edges)
        if (kept_of.at(static_cast<std::size_t>(direction_of(edge)))++ < most)
            kept.push_back(std::move(edge));
    return kept;
}

double coverage(const LongEdge& edge, double a, double b) {
    if (a > b) std::swap(a, b);
    if (!(b > a)) return 0.0;
    double covered = 0.0;
    for (const auto& s : edge.stretches) covered += std::max(0.0, std::min(b, s.y) - std::max(a, s.x));
    return covered / (b - a);
}

}  // namespace ridgetally
