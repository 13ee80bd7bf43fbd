#include "scale/comb_cells.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <opencv2/core/hal/intrin.hpp>
#include <optional>

namespace ridgetally {
namespace {

constexpr int cell_px = 8;     // half the shortest stroke of a mm mark at 5 px per mm
constexpr int half_span = 32;  // profile of 65 samples: five pitches of the coarsest comb a level takes
constexpr int half_thick = 4;  // rows averaged into the profile: one cell
constexpr int span = 2 * half_span + 1;
constexpr int longest_lag = 17;  // a comb coarser than 15 px is found on the next smaller level
constexpr float least_profile_power =
    span * 0.8F;                           // grey levels squared; noise averaged over nine rows is below
constexpr double first_peak_share = 0.55;  // half a pitch correlates negatively; sampling lowers narrow peaks
constexpr double shortest_pitch = 2.3;     // Nyquist is 2; below 2.3 the marks' contrast is gone
constexpr double longest_pitch = 15.0;
constexpr double least_gradient =
    2.5;  // rms grey levels per pixel; sensor noise after reduction is below 1.5
constexpr double least_regularity = 0.45;  // grain and fabric mostly stay below, worn marks above

/// Sums of gradient products over one cell: the structure tensor (Bigun and Granlund, ICCV 1987).
struct Tensor {
    int xx = 0;
    int yy = 0;
    int xy = 0;
};

/// Over a cell at the picture's border, whose outermost pixels have no neighbours to differ from.
Tensor border_tensor(const cv::Mat& level, int cx, int cy) {
    Tensor sum;
    for (int y = std::max(1, cy * cell_px); y < std::min((cy + 1) * cell_px, level.rows - 1); ++y) {
        const auto* above = level.ptr<uchar>(y - 1);
        const auto* here = level.ptr<uchar>(y);
        const auto* below = level.ptr<uchar>(y + 1);
        for (int x = std::max(1, cx * cell_px); x < std::min((cx + 1) * cell_px, level.cols - 1); ++x) {
            const int gx = here[x + 1] - here[x - 1];
            const int gy = below[x] - above[x];
            sum.xx += gx * gx;
            sum.yy += gy * gy;
            sum.xy += gx * gy;
        }
    }
    return sum;
}

/// Over a cell with pixels all round it, a row of it at once.
Tensor inner_tensor(const cv::Mat& level, int cx, int cy) {
    static_assert(cell_px == cv::v_int16x8::nlanes);
    const auto row = [](const uchar* from) { return cv::v_reinterpret_as_s16(cv::v_load_expand(from)); };
    cv::v_int32x4 xx = cv::v_setzero_s32();
    cv::v_int32x4 yy = cv::v_setzero_s32();
    cv::v_int32x4 xy = cv::v_setzero_s32();
    for (int y = cy * cell_px; y < (cy + 1) * cell_px; ++y) {
        const auto* here = level.ptr<uchar>(y) + cx * cell_px;
        const cv::v_int16x8 gx = row(here + 1) - row(here - 1);
        const cv::v_int16x8 gy = row(here + level.step) - row(here - level.step);
        xx += cv::v_dotprod(gx, gx);
        yy += cv::v_dotprod(gy, gy);
        xy += cv::v_dotprod(gx, gy);
    }
    return {cv::v_reduce_sum(xx), cv::v_reduce_sum(yy), cv::v_reduce_sum(xy)};
}

std::vector<Tensor> cell_tensors(const cv::Mat& level, int columns, int rows) {
    std::vector<Tensor> cells(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    cv::parallel_for_({0, rows}, [&](const cv::Range& range) {
        for (int cy = range.start; cy < range.end; ++cy) {
            Tensor* row = &cells[static_cast<std::size_t>(cy) * static_cast<std::size_t>(columns)];
            for (int cx = 0; cx < columns; ++cx) {
                const bool inner =
                    cx > 0 && cy > 0 && (cx + 1) * cell_px < level.cols && (cy + 1) * cell_px < level.rows;
                row[cx] = inner ? inner_tensor(level, cx, cy) : border_tensor(level, cx, cy);
            }
        }
    });
    return cells;
}

using Profile = std::array<float, span>;

/// Mean grey along the axis through `c`, averaged over a cell's height, nearest pixels. False outside the
/// picture.
bool axis_profile(const cv::Mat& level, cv::Point2f c, float axis, Profile& profile) {
    const cv::Point2f d(std::cos(axis), std::sin(axis));
    const cv::Point2f n(-d.y, d.x);
    const float reach_x = half_span * std::abs(d.x) + half_thick * std::abs(n.x) + 1.F;
    const float reach_y = half_span * std::abs(d.y) + half_thick * std::abs(n.y) + 1.F;
    if (c.x < reach_x || c.y < reach_y || c.x + reach_x >= static_cast<float>(level.cols) ||
        c.y + reach_y >= static_cast<float>(level.rows))
        return false;
    constexpr float one = 65536.F;  // 16.16 fixed point: the inner loop is one add and one load a pixel
    const auto fixed = [](float v) { return static_cast<int>(std::lround(v * one)); };
    const int step_x = fixed(d.x);
    const int step_y = fixed(d.y);
    std::array<int, span> sums{};
    const std::size_t stride = level.step;
    for (int j = -half_thick; j <= half_thick; ++j) {
        const auto thick = static_cast<float>(j);
        int x = fixed(c.x + thick * n.x - half_span * d.x + 0.5F);
        int y = fixed(c.y + thick * n.y - half_span * d.y + 0.5F);
        for (int& sum : sums) {
            sum += level.data[static_cast<std::size_t>(y >> 16) * stride + static_cast<std::size_t>(x >> 16)];
            x += step_x;
            y += step_y;
        }
    }
    for (std::size_t i = 0; i < span; ++i) profile[i] = static_cast<float>(sums[i]) / (2 * half_thick + 1);
    return true;
}

/// Takes a running mean of 25 samples away: shading, not strokes. Returns the sum of squares left.
float flatten(Profile& profile) {
    constexpr int reach = 12;
    std::array<float, span + 1> sums{};
    for (std::size_t i = 0; i < span; ++i) sums[i + 1] = sums[i] + profile[i];
    float power = 0.F;
    for (int i = 0; i < span; ++i) {
        const int low = std::max(0, i - reach);
        const int high = std::min(span, i + reach + 1);
        const float mean = (sums[static_cast<std::size_t>(high)] - sums[static_cast<std::size_t>(low)]) /
                           static_cast<float>(high - low);
        float& value = profile[static_cast<std::size_t>(i)];
        value -= mean;
        power += value * value;
    }
    return power;
}

struct Period {
    double pitch = 0.0;
    double regularity = 0.0;
};

/// First lag at which the normalised autocorrelation has a fair peak: the pitch, not a multiple of it (where
/// every second mark is longer, twice the pitch correlates better). The regularity is that of the best peak.
Period period_of(const Profile& f) {
    constexpr std::size_t lags = 20;  // of which two are not looked at: in fours
    static_assert(lags >= longest_lag + 2);
    std::array<double, longest_lag + 2> r{};
    std::array<float, span + lags> padded{};
    std::copy(f.begin(), f.end(), padded.begin());
    std::array<float, span + 1> power{};
    for (std::size_t i = 0; i < span; ++i) power[i + 1] = power[i] + f[i] * f[i];
    // All lags side by side, which a processor multiplies at once; each sum is still taken in order.
    std::array<float, lags> cross{};
    for (std::size_t i = 0; i < span; ++i)
        for (std::size_t lag = 0; lag < lags; ++lag) cross[lag] += padded[i] * padded[i + lag];
    for (std::size_t lag = 0; lag <= longest_lag + 1; ++lag) {
        const float norm = power[span - lag] * (power[span] - power[lag]);
        r[lag] = static_cast<double>(cross[lag] / std::sqrt(norm + 1e-9F));
    }
    double best = 0.0;
    std::array<Period, longest_lag> peaks{};
    std::size_t count = 0;
    for (std::size_t lag = 2; lag <= longest_lag; ++lag) {
        if (r[lag] < r[lag - 1] || r[lag] <= r[lag + 1] || r[lag] <= 0.0) continue;
        const double curve = r[lag - 1] - 2.0 * r[lag] + r[lag + 1];
        const double shift = curve < 0.0 ? 0.5 * (r[lag - 1] - r[lag + 1]) / curve : 0.0;
        peaks[count++] = {static_cast<double>(lag) + shift,
                          r[lag] - 0.25 * (r[lag - 1] - r[lag + 1]) * shift};
        best = std::max(best, peaks[count - 1].regularity);
    }
    for (std::size_t i = 0; i < count; ++i)
        if (peaks[i].regularity >= first_peak_share * best) return {peaks[i].pitch, best};
    return {};
}

/// Direction of the gradients in the window of two by two cells, where they agree.
std::optional<float> dominant_axis(const std::vector<Tensor>& cells, int columns, int cx, int cy,
                                   double least_coherence) {
    const auto width = static_cast<std::size_t>(columns);
    const auto at = static_cast<std::size_t>(cy) * width + static_cast<std::size_t>(cx);
    float xx = 0.F;
    float yy = 0.F;
    float xy = 0.F;
    for (const std::size_t i : {at, at + 1, at + width, at + width + 1}) {
        xx += static_cast<float>(cells[i].xx);
        yy += static_cast<float>(cells[i].yy);
        xy += static_cast<float>(cells[i].xy);
    }
    // Differences are taken over two pixels: twice the gradient, four times its square.
    constexpr float least_energy =
        4.F * 4.F * cell_px * cell_px * static_cast<float>(least_gradient * least_gradient);
    const float energy = xx + yy;
    if (energy < least_energy) return std::nullopt;
    if (std::hypot(xx - yy, 2.F * xy) < static_cast<float>(least_coherence) * energy) return std::nullopt;
    return 0.5F * std::atan2(2.F * xy, xx - yy);
}

std::optional<CombCell> comb_cell(const cv::Mat& level, cv::Point2f centre, float axis, double scale) {
    Profile profile{};
    if (!axis_profile(level, centre, axis, profile)) return std::nullopt;
    if (flatten(profile) < least_profile_power) return std::nullopt;
    const Period period = period_of(profile);
    if (period.regularity < least_regularity || period.pitch < shortest_pitch || period.pitch > longest_pitch)
        return std::nullopt;
    const auto place = [scale](float v) { return (static_cast<double>(v) + 0.5) * scale - 0.5; };
    return CombCell{{place(centre.x), place(centre.y)},
                    static_cast<double>(axis),
                    period.pitch * scale,
                    period.regularity};
}

/// Along the gradients run the strokes of a comb; along a strong edge, faint strokes that stand on it.
std::optional<CombCell> comb_across(const cv::Mat& level, cv::Point2f centre, float axis, double scale) {
    const auto cell = comb_cell(level, centre, axis, scale);
    return cell ? cell : comb_cell(level, centre, axis + static_cast<float>(std::numbers::pi / 2.0), scale);
}

}  // namespace

std::vector<CombCell> comb_cells(const cv::Mat& level, double photo_px_per_level_px, double least_coherence) {
    const int columns = level.cols / cell_px;
    const int rows = level.rows / cell_px;
    std::vector<CombCell> found;
    if (columns < 4 || rows < 4) return found;
    const auto cells = cell_tensors(level, columns, rows);
    std::vector<std::vector<CombCell>> found_in_row(static_cast<std::size_t>(rows - 1));
    cv::parallel_for_({0, rows - 1}, [&](const cv::Range& range) {
        for (int cy = range.start; cy < range.end; ++cy) {
            auto& in_row = found_in_row[static_cast<std::size_t>(cy)];
            for (int cx = 0; cx + 1 < columns; ++cx) {
                const auto axis = dominant_axis(cells, columns, cx, cy, least_coherence);
                if (!axis) continue;
                const cv::Point2f centre(static_cast<float>((cx + 1) * cell_px) - 0.5F,
                                         static_cast<float>((cy + 1) * cell_px) - 0.5F);
                const auto cell = comb_across(level, centre, *axis, photo_px_per_level_px);
                if (cell) in_row.push_back(*cell);
            }
        }
    });
    for (const auto& in_row : found_in_row) found.insert(found.end(), in_row.begin(), in_row.end());
    return found;
}

}  // namespace ridgetally
