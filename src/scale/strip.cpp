#include "scale/strip.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <opencv2/core/hal/intrin.hpp>
#include <opencv2/imgproc.hpp>
#include <vector>

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

/// Samples worked out at once.
constexpr std::size_t lanes = cv::v_float32x4::nlanes;

StripColumns straight_columns(const StripFrame& frame, const Strip& strip, int columns) {
    StripColumns feet;
    const std::size_t groups = (static_cast<std::size_t>(columns) + lanes - 1) / lanes;
    for (auto* values : {&feet.x, &feet.y, &feet.dx, &feet.dy}) values->reserve(lanes * groups);
    for (std::size_t k = 0; k < lanes * groups; ++k) {
        const auto i = static_cast<double>(k);
        const double u = strip.u(i);
        const double slant = frame.slant(u);
        const double base = frame.base(u);
        feet.x.push_back(static_cast<float>(frame.origin.x + u * frame.tx - base * frame.ty));
        feet.y.push_back(static_cast<float>(frame.origin.y + u * frame.ty + base * frame.tx));
        feet.dx.push_back(static_cast<float>(slant * frame.tx - frame.ty));
        feet.dy.push_back(static_cast<float>(slant * frame.ty + frame.tx));
    }
    return feet;
}

/// Rows sampled at a time: of a strip 4000 samples long their places stay in the second level cache.
constexpr int band_rows = 16;

/// The level of the pyramid that is sampled, and how.
struct Sampling {
    const cv::Mat& level;
    float shrink = 1.F;  ///< level pixels per photo pixel
    bool cubic = false;
};

constexpr int parts_bits = 5;  // places are told to 1/32 pixel, as in cv::remap, whose values these are
constexpr int parts = 1 << parts_bits;

/// The four pixels around a place weighed by their nearness; beyond the border lies the last pixel.
float sample_near_border(const cv::Mat& level, int x_parts, int y_parts) {
    const auto pixel = [&](int x, int y) {
        return static_cast<int>(
            level.at<uchar>(std::clamp(y, 0, level.rows - 1), std::clamp(x, 0, level.cols - 1)));
    };
    const int x = x_parts >> parts_bits;
    const int y = y_parts >> parts_bits;
    const int right = x_parts & (parts - 1);
    const int down = y_parts & (parts - 1);
    const int above = pixel(x, y) * (parts - right) + pixel(x + 1, y) * right;
    const int below = pixel(x, y + 1) * (parts - right) + pixel(x + 1, y + 1) * right;
    const int sum = above * (parts - down) + below * down;
    return static_cast<float>((sum + parts * parts / 2) >> (2 * parts_bits));
}

std::uint16_t two_pixels(const uchar* at) { return static_cast<std::uint16_t>(at[0] | at[1] << 8); }

/// Samples a row between the pixels, linearly.
class LinearRow {
  public:
    LinearRow(const Sampling& from, const StripColumns& feet, float w)
        : level_(from.level),
          feet_(feet),
          w_(cv::v_setall_f32(w)),
          shrink_(cv::v_setall_f32(from.shrink)),
          last_column_(cv::v_setall_s32(from.level.cols - 1)),
          last_row_(cv::v_setall_s32(from.level.rows - 1)) {}

    void sample(float* to, std::size_t count) const {
        for (std::size_t i = 0; i < count; i += lanes) {
            float four[lanes];
            cv::v_store(four, sample_four(level_parts(&feet_.x[i], &feet_.dx[i]),
                                          level_parts(&feet_.y[i], &feet_.dy[i])));
            std::copy_n(four, std::min(lanes, count - i), to + i);
        }
    }

  private:
    /// Coordinates in the level, in parts of its pixels.
    [[nodiscard]] cv::v_int32x4 level_parts(const float* foot, const float* way) const {
        const cv::v_float32x4 half = cv::v_setall_f32(0.5F);
        const cv::v_float32x4 photo = cv::v_load(foot) + w_ * cv::v_load(way);
        return cv::v_round(((photo + half) * shrink_ - half) * cv::v_setall_f32(parts));
    }

    /// Greys in parts of parts: single precision holds them exactly.
    [[nodiscard]] cv::v_float32x4 sample_four(const cv::v_int32x4& x_parts,
                                              const cv::v_int32x4& y_parts) const {
        const cv::v_int32x4 x = x_parts >> parts_bits;
        const cv::v_int32x4 y = y_parts >> parts_bits;
        const cv::v_int32x4 zero = cv::v_setzero_s32();
        int columns[lanes];
        int rows[lanes];
        cv::v_store(columns, x);
        cv::v_store(rows, y);
        if (!cv::v_check_all((x >= zero) & (x < last_column_) & (y >= zero) & (y < last_row_)))
            return four_near_border(x_parts, y_parts);
        unsigned pixels[lanes];  // a byte each: at the place, right of it, below these
        for (std::size_t k = 0; k < lanes; ++k) {
            const uchar* at = level_.ptr(rows[k]) + columns[k];
            pixels[k] = two_pixels(at) | static_cast<unsigned>(two_pixels(at + level_.step)) << 16;
        }
        const cv::v_uint32x4 four(pixels[0], pixels[1], pixels[2], pixels[3]);
        const cv::v_uint32x4 byte = cv::v_setall_u32(255);
        const auto grey = [&](const cv::v_uint32x4& bytes) {
            return cv::v_cvt_f32(cv::v_reinterpret_as_s32(bytes & byte));
        };
        const auto share = [](const cv::v_int32x4& places) {
            return cv::v_cvt_f32(places & cv::v_setall_s32(parts - 1)) * cv::v_setall_f32(1.F / parts);
        };
        const cv::v_float32x4 right = share(x_parts);
        const cv::v_float32x4 top = grey(four);
        const cv::v_float32x4 bottom = grey(four >> 16);
        const cv::v_float32x4 above = top + right * (grey(four >> 8) - top);
        const cv::v_float32x4 below = bottom + right * (grey(four >> 24) - bottom);
        const cv::v_float32x4 value = above + share(y_parts) * (below - above);
        return cv::v_cvt_f32(cv::v_trunc(value + cv::v_setall_f32(0.5F)));
    }

    [[nodiscard]] cv::v_float32x4 four_near_border(const cv::v_int32x4& x_parts,
                                                   const cv::v_int32x4& y_parts) const {
        int x[lanes];
        int y[lanes];
        float values[lanes];
        cv::v_store(x, x_parts);
        cv::v_store(y, y_parts);
        for (std::size_t k = 0; k < lanes; ++k) values[k] = sample_near_border(level_, x[k], y[k]);
        return cv::v_load(values);
    }

    const cv::Mat& level_;
    const StripColumns& feet_;
    cv::v_float32x4 w_;
    cv::v_float32x4 shrink_;
    cv::v_int32x4 last_column_;
    cv::v_int32x4 last_row_;
};

/// Where the samples of a row lie in a level of the pyramid.
void place_row(const Sampling& from, const StripColumns& feet, float w, std::size_t count, float* to_x,
               float* to_y) {
    for (std::size_t i = 0; i < count; ++i) {
        to_x[i] = (feet.x[i] + w * feet.dx[i] + 0.5F) * from.shrink - 0.5F;
        to_y[i] = (feet.y[i] + w * feet.dy[i] + 0.5F) * from.shrink - 0.5F;
    }
}

/// Marks few pixels apart need more than straight lines between the pixels.
void sample_cubic(const Sampling& from, const cv::Range& rows, Strip& strip) {
    cv::Mat map_x(rows.size(), strip.grey.cols, CV_32FC1);
    cv::Mat map_y(rows.size(), strip.grey.cols, CV_32FC1);
    for (int j = 0; j < rows.size(); ++j)
        place_row(from, strip.columns, static_cast<float>(strip.w(rows.start + j)),
                  static_cast<std::size_t>(strip.grey.cols), map_x.ptr<float>(j), map_y.ptr<float>(j));
    cv::Mat sampled;
    cv::remap(from.level, sampled, map_x, map_y, cv::INTER_CUBIC, cv::BORDER_REPLICATE);
    cv::Mat grey = strip.grey.rowRange(rows);
    sampled.convertTo(grey, CV_32F);
}

/// Fills some rows of the strip.
void sample_rows(const Sampling& from, const cv::Range& rows, Strip& strip) {
    if (from.cubic) {
        sample_cubic(from, rows, strip);
        return;
    }
    for (int j = rows.start; j < rows.end; ++j)
        LinearRow(from, strip.columns, static_cast<float>(strip.w(j)))
            .sample(strip.grey.ptr<float>(j), static_cast<std::size_t>(strip.grey.cols));
}

}  // namespace

bool Strip::inside(int column, int row) const {
    const auto i = static_cast<std::size_t>(column);
    const auto along = static_cast<float>(w(row));
    const float x = columns.x[i] + along * columns.dx[i];
    const float y = columns.y[i] + along * columns.dy[i];
    return x >= 0.F && y >= 0.F && x <= static_cast<float>(photo_px.width - 1) &&
           y <= static_cast<float>(photo_px.height - 1);
}

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
    strip.columns = straight_columns(frame, strip, columns);
    strip.photo_px = pyramid.front().size();
    strip.grey.create(rows, columns, CV_32FC1);
    const Sampling from{pyramid[level], static_cast<float>(1.0 / scale), pitch < 6.0};
    const int bands = (rows + band_rows - 1) / band_rows;
    cv::parallel_for_({0, bands}, [&](const cv::Range& range) {
        for (int band = range.start; band < range.end; ++band)
            sample_rows(from, {band * band_rows, std::min(rows, (band + 1) * band_rows)}, strip);
    });
    return strip;
}

}  // namespace ridgetally
