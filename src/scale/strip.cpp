#include "scale/strip.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally {

PhotoPoint StripFrame::photo(double u, double w) const {
    const double along = u + w * slant(u);
    const double across = base(u) + w;
    return {origin.x + along * tx - across * ty, origin.y + along * ty + across * tx};
}

StripPoint StripFrame::strip_point(const PhotoPoint& p) const {
    const double along = (p.x - origin.x) * tx + (p.y - origin.y) * ty;
    const double across = (p.y - origin.y) * tx - (p.x - origin.x) * ty;
    StripPoint s{along, across - base(along)};
    for (int round = 0; round < 4; ++round) {  // slant and base change slowly: converges at once
        s.u = along - s.w * slant(s.u);
        s.w = across - base(s.u);
    }
    return s;
}

double StripFrame::pitch(double u) const {
    const double root = root_pitch(u);
    return std::max(root * root, 1.0);
}

StripFrame frame_of(const CombChain& chain) {
    StripFrame frame;
    const PhotoPoint& a = chain.cells.front().centre_px;
    const PhotoPoint& b = chain.cells.back().centre_px;
    const double length = std::max(std::hypot(b.x - a.x, b.y - a.y), 1e-9);
    frame.origin = {0.5 * (a.x + b.x), 0.5 * (a.y + b.y)};
    frame.tx = (b.x - a.x) / length;
    frame.ty = (b.y - a.y) / length;
    std::vector<Sample> base;
    std::vector<Sample> slant;
    std::vector<Sample> root;
    for (const CombCell& cell : chain.cells) {
        const double dx = cell.centre_px.x - frame.origin.x;
        const double dy = cell.centre_px.y - frame.origin.y;
        const double u = dx * frame.tx + dy * frame.ty;
        const double along = std::cos(cell.axis_rad) * frame.tx + std::sin(cell.axis_rad) * frame.ty;
        const double across = std::sin(cell.axis_rad) * frame.tx - std::cos(cell.axis_rad) * frame.ty;
        base.push_back({u, dy * frame.tx - dx * frame.ty});
        slant.push_back({u, -across / along});
        root.push_back({u, std::sqrt(cell.pitch_px / std::abs(along))});
    }
    const double pitch = chain.cells[chain.cells.size() / 2].pitch_px;
    const bool is_long = chain.cells.size() > 12;
    frame.base = robust_polynomial(base, is_long ? 2 : 1, 0.3 * pitch);
    frame.slant = robust_polynomial(slant, is_long ? 1 : 0, 0.01);
    frame.root_pitch = robust_polynomial(root, 1, 0.01 * std::sqrt(pitch));
    const double margin = 25.0 * pitch;  // marks the cells missed at the ends: the next pass looks further
    frame.u_begin = -0.5 * length - margin;
    frame.u_end = 0.5 * length + margin;
    return frame;
}

void clip_to_picture(StripFrame& frame, cv::Size picture) {
    const auto inside = [&](double u) {
        const PhotoPoint p = frame.photo(u, 0.0);
        return p.x >= 0.0 && p.y >= 0.0 && p.x <= picture.width - 1.0 && p.y <= picture.height - 1.0;
    };
    const double middle = std::clamp(0.0, frame.u_begin, frame.u_end);
    double low = middle;
    while (low - 1.0 >= frame.u_begin && inside(low - 1.0)) low -= 1.0;
    double high = middle;
    while (high + 1.0 <= frame.u_end && inside(high + 1.0)) high += 1.0;
    frame.u_begin = low;
    frame.u_end = high;
}

namespace {

/// Where a column of the strip lies in the photo: (x, y) at w = 0, and the way along it.
struct Column {
    float x = 0.F;
    float y = 0.F;
    float dx = 0.F;
    float dy = 0.F;
};

std::vector<Column> straight_columns(const StripFrame& frame, const Strip& strip, int columns) {
    std::vector<Column> feet;
    feet.reserve(static_cast<std::size_t>(columns));
    for (int i = 0; i < columns; ++i) {
        const double u = strip.u(i);
        const double slant = frame.slant(u);
        const double base = frame.base(u);
        feet.push_back({static_cast<float>(frame.origin.x + u * frame.tx - base * frame.ty),
                        static_cast<float>(frame.origin.y + u * frame.ty + base * frame.tx),
                        static_cast<float>(slant * frame.tx - frame.ty),
                        static_cast<float>(slant * frame.ty + frame.tx)});
    }
    return feet;
}

/// Rows sampled at a time: of a strip 4000 samples long their places stay in the second level cache.
constexpr int band_rows = 16;

/// The level of the pyramid that is sampled, and how.
struct Sampling {
    const cv::Mat& level;
    cv::Size photo_px;
    float shrink = 1.F;  ///< level pixels per photo pixel
    int interpolation = cv::INTER_LINEAR;
};

/// Fills some rows of the strip.
void sample_rows(const Sampling& from, const std::vector<Column>& feet, const cv::Range& rows, Strip& strip) {
    const auto right = static_cast<float>(from.photo_px.width - 1);
    const auto bottom = static_cast<float>(from.photo_px.height - 1);
    cv::Mat map(rows.size(), strip.grey.cols, CV_32FC2);
    for (int j = rows.start; j < rows.end; ++j) {
        const auto w = static_cast<float>(strip.w(j));
        auto* to = map.ptr<cv::Vec2f>(j - rows.start);
        auto* inside = strip.inside.ptr<uchar>(j);
        for (int i = 0; i < strip.grey.cols; ++i) {
            const Column& c = feet[static_cast<std::size_t>(i)];
            const float x = c.x + w * c.dx;
            const float y = c.y + w * c.dy;
            to[i] = {(x + 0.5F) * from.shrink - 0.5F, (y + 0.5F) * from.shrink - 0.5F};
            inside[i] = x >= 0.F && y >= 0.F && x <= right && y <= bottom ? 255 : 0;
        }
    }
    cv::Mat sampled;
    cv::remap(from.level, sampled, map, cv::noArray(), from.interpolation, cv::BORDER_REPLICATE);
    cv::Mat grey = strip.grey.rowRange(rows);
    sampled.convertTo(grey, CV_32F);
}

}  // namespace

Strip sample_strip(const GreyPyramid& pyramid, const StripFrame& frame, double w_from, double w_to) {
    const double pitch = std::min({frame.pitch(frame.u_begin), frame.pitch(frame.u_end), frame.pitch(0.0)});
    Strip strip;
    strip.step = pitch < 5.0 ? std::max(pitch / 5.0, 0.4) : std::max(1.0, pitch / 12.0);
    strip.u_begin = frame.u_begin;
    strip.w_begin = w_from;
    std::size_t level = 0;
    double scale = 1.0;
    while (level + 1 < pyramid.size() && 2.0 * scale <= 1.2 * strip.step) {
        ++level;
        scale *= 2.0;
    }
    if (pitch >= 5.0) strip.step = std::min(strip.step, scale);  // a coarser one would skip pixels: aliasing
    const int columns = std::max(1, static_cast<int>((frame.u_end - frame.u_begin) / strip.step) + 1);
    const int rows = std::max(1, static_cast<int>((w_to - w_from) / strip.step) + 1);
    const auto feet = straight_columns(frame, strip, columns);
    strip.grey.create(rows, columns, CV_32FC1);
    strip.inside.create(rows, columns, CV_8UC1);
    const Sampling from{pyramid[level], pyramid.front().size(), static_cast<float>(1.0 / scale),
                        pitch < 6.0 ? cv::INTER_CUBIC : cv::INTER_LINEAR};
    const int bands = (rows + band_rows - 1) / band_rows;
    cv::parallel_for_({0, bands}, [&](const cv::Range& range) {
        for (int band = range.start; band < range.end; ++band)
            sample_rows(from, feet, {band * band_rows, std::min(rows, (band + 1) * band_rows)}, strip);
    });
    return strip;
}

}  // namespace ridgetally
