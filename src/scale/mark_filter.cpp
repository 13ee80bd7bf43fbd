#include "scale/mark_filter.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <opencv2/core.hpp>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr int neighbours = 8;              // each side: most of a centimetre of mm marks
constexpr double farthest_pitches = 0.12;  // from the smooth row; printed marks stay within 0.03
constexpr double farthest_px = 0.6;  // or this, where marks are so fine that noise is more than 0.12 pitch
constexpr double leaning_pitches = 0.15;  // tip against foot of a short mark, beyond its neighbours' lean
constexpr double leaning_px = 1.0;
constexpr double faintest_share = 0.3;  // of the neighbours' contrast; glare fades over many marks
constexpr double beating_px = 4.0;  // spacing below which marks' contrast depends on where the pixels fall
constexpr std::size_t beating_run = 3;
constexpr int covered_gap = 10;     // marks missing in a row: something lies over them
constexpr double foot_share = 0.5;  // of a short mark's length: how far a foot may lie from the others'

/// Keeps the marks for which `good` holds for their place in the list.
void keep_if(std::vector<MeasuredMark>& marks, const std::vector<char>& good) {
    std::vector<MeasuredMark> kept;
    for (std::size_t i = 0; i < marks.size(); ++i)
        if (good[i]) kept.push_back(marks[i]);
    marks = std::move(kept);
}

/// Median of a value over the neighbours of mark i, itself left out.
double around(const std::vector<double>& values, std::size_t i) {
    const std::size_t from = i > neighbours ? i - neighbours : 0;
    const std::size_t to = std::min(values.size(), i + neighbours + 1);
    std::vector<double> near;
    for (std::size_t j = from; j < to; ++j)
        if (j != i) near.push_back(values[j]);
    return median_of(near);
}

void fit_row(RulerLine& line) {
    std::vector<Sample> samples;
    for (const MeasuredMark& m : line.marks) samples.push_back({static_cast<double>(m.index), m.at_u});
    line.model = fit_index_model(samples, 0.03);
}

/// Deviations from the row, its slow leaning (lens, bent tape) taken out: a straight line through the
/// neighbours.
std::vector<double> deviations(const RulerLine& line) {
    std::vector<Sample> residual;
    for (const MeasuredMark& m : line.marks)
        residual.push_back({static_cast<double>(m.index), m.at_u - line.model.position(m.index)});
    std::vector<double> deviation(residual.size());
    cv::parallel_for_({0, static_cast<int>(residual.size())}, [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i) {
            const std::size_t from = i > neighbours ? i - neighbours : 0;
            const std::size_t to = std::min(residual.size(), i + neighbours + 1);
            std::vector<Sample> near(residual.begin() + static_cast<std::ptrdiff_t>(from),
                                     residual.begin() + static_cast<std::ptrdiff_t>(to));
            near[i - from].weight = 0.0;
            deviation[i] = residual[i].y - robust_polynomial(near, 1, 0.05)(residual[i].x);
        }
    });
    return deviation;
}

void drop_displaced(RulerLine& line) {
    fit_row(line);
    const auto off = deviations(line);
    std::vector<char> good;
    for (std::size_t i = 0; i < off.size(); ++i) {
        const double pitch = std::abs(line.model.spacing(line.marks[i].index));
        good.push_back(std::abs(off[i]) <= std::max(farthest_pitches * pitch, farthest_px));
    }
    keep_if(line.marks, good);
}

void drop_faint(RulerLine& line) {
    std::vector<double> contrast;
    for (const MeasuredMark& m : line.marks) contrast.push_back(m.contrast);
    std::vector<char> good;
    for (std::size_t i = 0; i < contrast.size(); ++i)
        good.push_back(contrast[i] >= faintest_share * around(contrast, i));
    keep_if(line.marks, good);
}

/// Marks are parallel but for perspective: one that leans otherwise ran into something beside it.
void drop_leaning(RulerLine& line) {
    std::vector<Sample> leans;
    std::vector<double> lengths;
    for (const MeasuredMark& m : line.marks) {
        leans.push_back({m.at_u, m.lean});
        lengths.push_back(m.bottom_w - m.top_w);
    }
    const Polynomial trend = robust_polynomial(leans, 1, 0.003);
    const double length = quantile_of(lengths, 0.25);
    std::vector<char> good;
    for (const MeasuredMark& m : line.marks) {
        const double pitch = std::abs(line.model.spacing(m.index));
        good.push_back(std::abs(m.lean - trend(m.at_u)) * length <=
                       std::max(leaning_pitches * pitch, leaning_px));
    }
    keep_if(line.marks, good);
}

/// A few strokes beyond a gap of their own size are something else that happens to be in step.
void drop_lonely(RulerLine& line) {
    std::vector<char> good(line.marks.size(), 1);
    std::size_t from = 0;
    while (from < line.marks.size()) {
        std::size_t to = from + 1;
        while (to < line.marks.size() && line.marks[to].index - line.marks[to - 1].index <= 3) ++to;
        if (to - from < 5)
            for (std::size_t i = from; i < to; ++i) good[i] = 0;
        from = to;
    }
    keep_if(line.marks, good);
}

void fit_feet(RulerLine& line) {
    std::vector<double> tops;
    std::vector<double> bottoms;
    for (const MeasuredMark& m : line.marks) {
        const double pitch = std::abs(line.model.spacing(m.index));
        if (m.cut) continue;
        tops.push_back(-m.top_w / pitch);
        bottoms.push_back(m.bottom_w / pitch);
    }
    const double up = quantile_of(tops, 0.93) - quantile_of(tops, 0.4);
    const double down = quantile_of(bottoms, 0.93) - quantile_of(bottoms, 0.4);
    line.tips_at_greater_w = down >= up;
    std::vector<Sample> feet;
    for (const MeasuredMark& m : line.marks)
        feet.push_back({m.at_u, line.tips_at_greater_w ? m.top_w : m.bottom_w, m.cut ? 0.1 : 1.0});
    line.foot_w = robust_polynomial(feet, feet.size() > 20 ? 2 : 1, 0.2);
}

void drop_stray_feet(RulerLine& line) {
    std::vector<double> lengths;
    for (const MeasuredMark& m : line.marks) lengths.push_back(m.bottom_w - m.top_w);
    const double farthest = foot_share * quantile_of(lengths, 0.25);
    std::vector<char> good;
    for (const MeasuredMark& m : line.marks) {
        const double foot = line.tips_at_greater_w ? m.top_w : m.bottom_w;
        good.push_back(std::abs(foot - line.foot_w(m.at_u)) <= farthest || m.cut);
    }
    keep_if(line.marks, good);
}

void measure_scatter(RulerLine& line) {
    std::vector<Sample> leans;
    for (const MeasuredMark& m : line.marks) leans.push_back({m.at_u, m.lean});
    const Polynomial trend = robust_polynomial(leans, 1, 0.003);
    std::vector<double> tips;
    for (const MeasuredMark& m : line.marks)
        tips.push_back(std::abs(m.lean - trend(m.at_u)) * (m.bottom_w - m.top_w));
    // Marks few pixels apart beat with the pixels: one in the middle of a pixel is twice as dark as one
    // between two. A run of them is not.
    const double spacing = std::abs(line.model.spacing(line.model.centre));
    const std::size_t run = spacing < beating_px ? beating_run : 1;
    std::vector<double> contrasts;
    for (std::size_t i = run; i + run <= line.marks.size(); ++i) {
        double before = 0.0;
        double after = 0.0;
        for (std::size_t j = 0; j < run; ++j) {
            before += line.marks[i - 1 - j].contrast;
            after += line.marks[i + j].contrast;
        }
        contrasts.push_back(std::abs(std::log(after / before)));
    }
    line.lean_px = mad_to_std * median_of(tips);
    line.contrast_scatter = mad_to_std * median_of(contrasts);
}

}  // namespace

void keep_true_marks(RulerLine& line) {
    for (int round = 0; round < 2 && line.marks.size() >= 8; ++round) {
        drop_displaced(line);
        drop_leaning(line);
        drop_faint(line);
        drop_lonely(line);
    }
    if (line.marks.size() < 8) return;
    fit_row(line);
    fit_feet(line);
    drop_stray_feet(line);
    drop_lonely(line);
    if (line.marks.size() < 8) return;
    fit_row(line);
    double square = 0.0;
    for (const double d : deviations(line)) square += d * d;
    const auto count = static_cast<double>(line.marks.size());
    line.residual_px = std::sqrt(square / count);
    measure_scatter(line);
    std::vector<double> pitches;
    for (const MeasuredMark& m : line.marks) pitches.push_back(std::abs(line.model.spacing(m.index)));
    line.pitch_px = median_of(pitches);
    int expected = 1;
    for (std::size_t i = 1; i < line.marks.size(); ++i) {
        const int step = line.marks[i].index - line.marks[i - 1].index;
        expected += step > covered_gap ? 1 : step;  // a hand or paper over the ruler is no fault of the row
    }
    line.found_share = count / expected;
}

double RulerLine::length_in_pitches(const MeasuredMark& mark) const {
    const double foot = foot_w(mark.at_u);
    const double length = tips_at_greater_w ? mark.bottom_w - foot : foot - mark.top_w;
    return length / std::abs(model.spacing(mark.index));
}

}  // namespace ridgetally
