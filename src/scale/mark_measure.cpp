#include "scale/mark_measure.h"

#include <algorithm>
#include <cmath>
#include <opencv2/core.hpp>
#include <optional>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr double search_pitches = 0.3;   // a mark farther from its place belongs to something else
constexpr double follow_pitches = 0.13;  // a stroke's centre may wander this far from its own line
constexpr double end_share = 0.45;       // of the mark's own contrast: where a blurred stroke's end is seen
constexpr double follow_rate = 0.12;     // per row: a tenth of a pitch, slower than the blur of an end
constexpr double faintest_share = 0.35;  // of the contrast at the foot, however slowly it fades
constexpr double bold_share = 1.7;       // times the stroke's contrast: strokes of one pen do not darken so
constexpr double longest_break_pitches = 0.15;
constexpr double least_contrast = 4.0;  // grey levels, averaged over the band

/// Luma of the strip with marks dark, whatever their polarity.
class DarkMarks {
  public:
    DarkMarks(const Strip& strip, Polarity polarity)
        : strip_(strip), sign_(polarity == Polarity::dark_on_light ? 1.F : -1.F) {}

    /// One row, its neighbours at half weight, linear along the row.
    [[nodiscard]] double at(double column, int row) const {
        const double c = std::clamp(column, 0.0, strip_.grey.cols - 1.001);
        const int left = static_cast<int>(c);
        const auto t = static_cast<float>(c - left);
        const auto sample = [&](int j) {
            const float* line = strip_.grey.ptr<float>(j);
            return line[left] + t * (line[left + 1] - line[left]);
        };
        return static_cast<double>(sign_ *
                                   (0.5F * sample(row) + 0.25F * (sample(row - 1) + sample(row + 1))));
    }

    /// Mean over a few rows, linear along the row. Columns are clamped to the strip.
    [[nodiscard]] double at(double column, int row_from, int row_to) const {
        const double c = std::clamp(column, 0.0, strip_.grey.cols - 1.001);
        const int left = static_cast<int>(c);
        const auto t = static_cast<float>(c - left);
        float sum = 0.F;
        for (int j = row_from; j <= row_to; ++j) {
            const float* line = strip_.grey.ptr<float>(j);
            sum += line[left] + t * (line[left + 1] - line[left]);
        }
        return static_cast<double>(sign_ * sum) / (row_to - row_from + 1);
    }

  private:
    const Strip& strip_;
    float sign_;
};

struct Stroke {
    double column = 0.0;
    double contrast = 0.0;
};

/// The darkest place within `reach` of `column` and how much darker it is than the ruler half a pitch away.
template <typename Grey>
Stroke stroke_at(const Grey& grey, double column, double reach, double pitch) {
    const double step = 0.5;
    const int steps = std::max(1, static_cast<int>(reach / step));
    int best = 0;
    double lowest = 1e30;
    for (int i = -steps; i <= steps; ++i) {
        const double v = grey(column + i * step);
        if (v < lowest) {
            lowest = v;
            best = i;
        }
    }
    Stroke stroke;
    // Parabola through samples a full column apart: linear interpolation in between is no information.
    const double centre = column + best * step;
    const double before = grey(centre - 1.0);
    const double after = grey(centre + 1.0);
    const double curve = before - 2.0 * lowest + after;
    const double shift = curve > 1e-6 ? std::clamp(0.5 * (before - after) / curve, -0.75, 0.75) : 0.0;
    stroke.column = centre + shift;
    const auto ground = [&](double offset) {
        return (grey(stroke.column + offset - 0.06 * pitch) + grey(stroke.column + offset + 0.06 * pitch)) /
               2.0;
    };
    stroke.contrast = std::min(ground(-0.5 * pitch), ground(0.5 * pitch)) - lowest;
    return stroke;
}

struct RowCentre {
    int row = 0;
    Stroke stroke;
    double least = 0.0;  ///< contrast below which the stroke counts as ended here
    double most = 0.0;   ///< contrast above which it is something else: a bold numeral right behind the mark

    [[nodiscard]] bool seen() const { return stroke.contrast >= least && stroke.contrast <= most; }
};

/// Follows the stroke row by row from `start` in direction `way` until its contrast is gone. The contrast
/// asked for follows the stroke's own slowly, so that shading and glare along it do not end it.
std::vector<RowCentre> follow(const Strip& strip, const DarkMarks& grey, const Polynomial& line, double pitch,
                              double contrast, int start, int way) {
    std::vector<RowCentre> rows;
    const int longest_break = std::max(1, static_cast<int>(longest_break_pitches * pitch));
    int missed = 0;
    double reference = contrast;
    for (int j = start; j >= 1 && j + 1 < strip.grey.rows; j += way) {
        const Stroke s = stroke_at([&](double c) { return grey.at(c, j); }, line(j),
                                   std::max(follow_pitches * pitch, 0.5), pitch);
        rows.push_back({j, s, end_share * reference, bold_share * reference + least_contrast});
        missed = rows.back().seen() ? 0 : missed + 1;
        if (missed > longest_break) break;
        if (missed == 0)
            reference =
                std::max(reference + follow_rate * (s.contrast - reference), faintest_share * contrast);
    }
    return rows;
}

/// Row at which the contrast falls through the least one, between the samples; `rows` run outwards.
double end_row(const std::vector<RowCentre>& rows, int way) {
    std::size_t last = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].seen()) last = i;
    if (last + 1 >= rows.size()) return rows.back().row;
    const double inner = rows[last].stroke.contrast;
    const double outer = rows[last + 1].stroke.contrast;
    const double t = inner > outer ? (inner - rows[last + 1].least) / (inner - outer) : 0.5;
    return rows[last].row + way * std::clamp(t, 0.0, 1.0);
}

/// Straight line through the rows well inside the stroke: where it fades out, its centre wanders.
Polynomial line_through(const std::vector<RowCentre>& rows) {
    constexpr double well_inside = 1.4;  // times the contrast at which it ends
    constexpr double floor = 0.05;       // samples; the noise of a row's centre is no less
    std::vector<Sample> samples;
    for (const RowCentre& r : rows)
        if (r.seen() && r.stroke.contrast >= well_inside * r.least)
            samples.push_back({static_cast<double>(r.row), r.stroke.column, 1.0});
    return robust_polynomial(samples, samples.size() >= 4 ? 1 : 0, floor);
}

std::optional<MeasuredMark> measure_mark(const Strip& strip, const DarkMarks& grey, const MarkBand& band,
                                         double u, double pitch_u) {
    const double pitch = pitch_u / strip.step;
    const double top = strip.row(band.top_w(u));
    const double bottom = strip.row(band.bottom_w(u));
    const double inset = 0.15 * (bottom - top);
    const int from = static_cast<int>(std::lround(top + inset));
    const int to = static_cast<int>(std::lround(bottom - inset));
    if (from < 2 || to > strip.grey.rows - 3 || to - from < 1) return std::nullopt;
    const double column = strip.column(u);
    if (column < 0.6 * pitch || column > strip.grey.cols - 1 - 0.6 * pitch) return std::nullopt;
    const Stroke whole =
        stroke_at([&](double c) { return grey.at(c, from, to); }, column, search_pitches * pitch, pitch);
    if (whole.contrast < least_contrast || std::abs(whole.column - column) > search_pitches * pitch)
        return std::nullopt;

    std::vector<RowCentre> core;
    for (int j = from; j <= to; ++j)
        core.push_back(
            {j,
             stroke_at([&](double c) { return grey.at(c, j); }, whole.column, search_pitches * pitch, pitch),
             end_share * whole.contrast, bold_share * whole.contrast + least_contrast});
    std::vector<double> contrasts;
    for (const RowCentre& r : core) contrasts.push_back(r.stroke.contrast);
    const double contrast = median_of(contrasts);
    if (contrast < least_contrast) return std::nullopt;
    Polynomial line = line_through(core);
    const int middle = (from + to) / 2;
    auto up = follow(strip, grey, line, pitch, contrast, middle, -1);
    auto down = follow(strip, grey, line, pitch, contrast, middle + 1, 1);
    if (up.empty() || down.empty()) return std::nullopt;
    MeasuredMark mark;
    mark.top_w = strip.w(end_row(up, -1));
    mark.bottom_w = strip.w(end_row(down, 1));
    std::vector<RowCentre> all(up.rbegin(), up.rend());
    all.insert(all.end(), down.begin(), down.end());
    line = line_through(all);
    const double zero = strip.row(0.0);
    mark.at_u = strip.u(line(zero));
    mark.lean = line(zero + 1.0) - line(zero);
    mark.contrast = contrast;
    const auto outside = [&](double w) {
        const int j = std::clamp(static_cast<int>(std::lround(strip.row(w))), 0, strip.grey.rows - 1);
        const int i = std::clamp(static_cast<int>(std::lround(column)), 0, strip.grey.cols - 1);
        return !strip.inside(i, j);
    };
    const double margin = 2.0 * strip.step;
    mark.cut = outside(mark.top_w - margin) || outside(mark.bottom_w + margin) || up.back().row <= 1 ||
               down.back().row + 2 >= strip.grey.rows;
    return mark;
}

}  // namespace

std::vector<MeasuredMark> measure_marks(const Strip& strip, const std::vector<ExpectedMark>& expected,
                                        const MarkBand& band, Polarity polarity) {
    const DarkMarks grey(strip, polarity);
    std::vector<std::optional<MeasuredMark>> measured(expected.size());
    cv::parallel_for_({0, static_cast<int>(expected.size())}, [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i)
            measured[i] = measure_mark(strip, grey, band, expected[i].u, expected[i].spacing);
    });
    std::vector<MeasuredMark> marks;
    for (std::size_t i = 0; i < expected.size(); ++i) {
        if (!measured[i]) continue;
        measured[i]->index = expected[i].index;
        marks.push_back(*measured[i]);
    }
    return marks;
}

}  // namespace ridgetally
