#include "scale/ruler_outline.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace ridgetally {
namespace {

constexpr double before_feet_mm = 6.0;   // marks start at the edge or a few mm from it
constexpr double numerals_mm = 7.0;      // room for numerals where no edge is seen
constexpr double beyond_ends_mm = 25.0;  // blank ends of wooden rulers
constexpr double samples_per_mm = 2.0;
constexpr double least_step = 5.0;   // grey levels across one millimetre: body against table
constexpr double edge_share = 0.75;  // of the columns must show the step, all the same way
constexpr int segments = 6;

/// Share of columns in [from, to) with a step of the same sign across row j.
double step_share(const cv::Mat& grey, int j, int reach, int from, int to) {
    if (j < reach || j + reach >= grey.rows || to <= from) return 0.0;
    const float* above = grey.ptr<float>(j - reach);
    const float* below = grey.ptr<float>(j + reach);
    int up = 0;
    int down = 0;
    for (int i = from; i < to; ++i) {
        const float step = below[i] - above[i];
        up += static_cast<double>(step) > least_step ? 1 : 0;
        down += static_cast<double>(step) < -least_step ? 1 : 0;
    }
    return static_cast<double>(std::max(up, down)) / (to - from);
}

struct Edge {
    Polynomial w;
};

/// The first line of steps met from row w_from on, going `way`; it may run at a small angle to the marks'
/// feet.
std::optional<Edge> first_edge(const Strip& strip, double w_from, double w_to) {
    const int way = w_to > w_from ? 1 : -1;
    const int reach = 1;
    const int first = static_cast<int>(std::lround(strip.row(w_from)));
    const int last = static_cast<int>(std::lround(strip.row(w_to)));
    const int width = strip.grey.cols / segments;
    const int slack = std::max(2, std::abs(last - first) / 10);
    for (int j = first; way * (last - j) >= 0; j += way) {
        std::vector<Sample> found;
        for (int s = 0; s < segments; ++s) {
            double best = edge_share;
            int best_row = -1;
            for (int r = j - slack; r <= j + slack; ++r) {
                if (way * (r - first) < 0) continue;
                const double share = step_share(strip.grey, r, reach, s * width, (s + 1) * width);
                if (share > best) {
                    best = share;
                    best_row = r;
                }
            }
            if (best_row >= 0) found.push_back({strip.u((s + 0.5) * width), strip.w(best_row)});
        }
        if (found.size() >= 4) return Edge{robust_polynomial(found, 1, strip.step)};
    }
    return std::nullopt;
}

/// How far the body goes on beyond the last mark at `u_from`, towards `u_to`: to the first step across most
/// rows.
double body_end(const Strip& strip, double w_from, double w_to, double u_from, double u_to,
                double fallback_mm, double px_per_mm) {
    const int way = u_to > u_from ? 1 : -1;
    const int top = std::clamp(static_cast<int>(strip.row(std::min(w_from, w_to))), 0, strip.grey.rows - 1);
    const int bottom =
        std::clamp(static_cast<int>(strip.row(std::max(w_from, w_to))), 0, strip.grey.rows - 1);
    const int last = std::clamp(static_cast<int>(strip.column(u_to)), 1, strip.grey.cols - 2);
    const int first = std::clamp(static_cast<int>(strip.column(u_from)), 1, strip.grey.cols - 2);
    for (int i = first + 2 * way; way * (last - i) >= 0; i += way) {
        if (i < 1 || i + 1 >= strip.grey.cols) break;
        int up = 0;
        int down = 0;
        for (int j = top; j <= bottom; ++j) {
            const float step = strip.grey.at<float>(j, i + 1) - strip.grey.at<float>(j, i - 1);
            up += static_cast<double>(step) > least_step ? 1 : 0;
            down += static_cast<double>(step) < -least_step ? 1 : 0;
        }
        if (std::max(up, down) >= edge_share * (bottom - top + 1)) return strip.u(i);
    }
    const double fallback = u_from + way * fallback_mm * px_per_mm;
    return way > 0 ? std::min(fallback, u_to) : std::max(fallback, u_to);
}

}  // namespace

std::vector<PhotoPoint> ruler_outline(const GreyPyramid& pyramid, const RulerLine& line,
                                      double mm_per_index) {
    const double px_per_mm = line.pitch_px / mm_per_index;
    const double way = line.tips_at_greater_w ? 1.0 : -1.0;
    StripFrame frame = line.frame;
    const double u_first = std::min(line.marks.front().at_u, line.marks.back().at_u);
    const double u_last = std::max(line.marks.front().at_u, line.marks.back().at_u);
    frame.u_begin = u_first - beyond_ends_mm * px_per_mm;
    frame.u_end = u_last + beyond_ends_mm * px_per_mm;
    clip_to_picture(frame, pyramid.front().size());
    // The outline needs no more than half a millimetre: a coarse strip, made by asking for a wide spacing.
    StripFrame coarse = frame;
    const double step = std::max(1.0, px_per_mm / samples_per_mm);
    coarse.root_pitch = Polynomial{0.0, 1.0, {std::sqrt(12.0 * step)}};
    double foot = line.foot_w(0.5 * (u_first + u_last));
    double tip = foot;
    for (const MeasuredMark& m : line.marks)
        tip = way > 0 ? std::max(tip, m.bottom_w) : std::min(tip, m.top_w);
    const double w_low =
        std::min(foot - way * before_feet_mm * px_per_mm, foot + way * widest_body_mm * px_per_mm);
    const double w_high =
        std::max(foot - way * before_feet_mm * px_per_mm, foot + way * widest_body_mm * px_per_mm);
    const Strip strip = sample_strip(pyramid, coarse, w_low, w_high);
    const auto far = first_edge(strip, tip + way * px_per_mm, way > 0 ? w_high : w_low);
    const auto near = first_edge(strip, foot, foot - way * before_feet_mm * px_per_mm);
    const auto far_w = [&](double u) { return far ? far->w(u) : tip + way * numerals_mm * px_per_mm; };
    const auto near_w = [&](double u) { return near ? near->w(u) : line.foot_w(u) - way * 0.5 * px_per_mm; };
    const double inner_from = foot + way * 1.0 * px_per_mm;
    const double inner_to = far_w(0.5 * (u_first + u_last)) - way * 1.0 * px_per_mm;
    const double begin = body_end(strip, inner_from, inner_to, u_first, frame.u_begin, 4.0, px_per_mm);
    const double end = body_end(strip, inner_from, inner_to, u_last, frame.u_end, 4.0, px_per_mm);
    std::vector<PhotoPoint> outline;
    constexpr int pieces = 8;  // a bent tape is followed in eight straight pieces
    for (int i = 0; i <= pieces; ++i) {
        const double u = begin + (end - begin) * i / pieces;
        outline.push_back(frame.photo(u, near_w(u)));
    }
    for (int i = pieces; i >= 0; --i) {
        const double u = begin + (end - begin) * i / pieces;
        outline.push_back(frame.photo(u, far_w(u)));
    }
    return outline;
}

}  // namespace ridgetally
