#include "report/overlay.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/median.h"
#include "core/units.h"
#include "report/draw/lettering.h"
#include "report/draw/palette.h"
#include "report/draw/strokes.h"

namespace ridgetally {
namespace {

double length(const cv::Point2d& v) { return std::hypot(v.x, v.y); }

cv::Point2d unit(const cv::Point2d& v) {
    const double l = length(v);
    return l > 0.0 ? v * (1.0 / l) : cv::Point2d(0.0, 0.0);
}

cv::Rect2d enlarged(const cv::Rect2d& box, double margin) {
    return {box.x - margin, box.y - margin, box.width + 2.0 * margin, box.height + 2.0 * margin};
}

/// Numbers already on the picture; a further one is left out where it would touch them.
class Numbers {
  public:
    explicit Numbers(Canvas& canvas) : canvas_(canvas) {}

    /// A number centred at `centre`, moved into the picture where it would stick out.
    void draw(int number, cv::Point2d centre, const cv::Scalar& colour, const cv::Scalar& halo) {
        const std::string text = std::to_string(number);
        const double height = canvas_.letter_px();
        const double width = text_width_px(text, height);
        const double margin = 0.3 * height;
        const auto inside = [](double x, double low, double high) {
            return std::max(low, std::min(x, high));
        };
        centre.x = inside(centre.x, margin + width / 2.0, canvas_.picture.cols - margin - width / 2.0);
        centre.y = inside(centre.y, margin + height / 2.0, canvas_.picture.rows - margin - height / 2.0);
        const cv::Rect2d box(centre.x - width / 2.0, centre.y - height / 2.0, width, height);
        const bool taken = std::any_of(boxes_.begin(), boxes_.end(), [&](const cv::Rect2d& other) {
            return (enlarged(box, margin) & other).area() > 0.0;
        });
        if (taken) return;
        boxes_.push_back(box);
        draw_text(canvas_.picture, text, {box.x, box.y + height},
                  {height, colour, halo, std::max(1.0, canvas_.line_px())});
    }

  private:
    Canvas& canvas_;
    std::vector<cv::Rect2d> boxes_;
};

bool near_whole(double x) {
    constexpr double slack = 0.02;  // of the unit: positions are whole marks, only rounding separates them
    return std::abs(x - std::round(x)) < slack;
}

/// Numbers along a graduation: the unit they count in, where zero is, and how many units apart they stand.
struct Numbering {
    double unit_mm = 10.0;
    double zero_mm = 0.0;
    int step = 1;
};

Numbering numbering_of(const Canvas& canvas, const ScaleResult& scale) {
    Numbering numbering;
    numbering.unit_mm = scale.unit == LengthUnit::mm ? 10.0 : mm_per_inch;
    const auto& marks = scale.marks;
    const auto first_whole = std::find_if(marks.begin(), marks.end(), [&](const ScaleMark& mark) {
        return near_whole(mark.position_mm / numbering.unit_mm);
    });
    numbering.zero_mm = (first_whole != marks.end() ? *first_whole : marks.front()).position_mm;
    const double span_mm = marks.back().position_mm - marks.front().position_mm;
    const double span_px = length(canvas.at(marks.back().foot_px) - canvas.at(marks.front().foot_px));
    const double unit_px = span_mm > 0.0 ? span_px * numbering.unit_mm / span_mm : span_px;
    for (const int step : {1, 2, 5, 10, 20, 50, 100}) {
        numbering.step = step;
        if (unit_px * step > 2.5 * canvas.letter_px()) break;
    }
    return numbering;
}

/// Away from the marks' tips: off the ruler's face, so that the numbers hide no mark.
cv::Point2d outward(const Canvas& canvas, const std::vector<ScaleMark>& marks, const ScaleMark& mark) {
    const cv::Point2d away = canvas.at(mark.foot_px) - canvas.at(mark.tip_px);
    if (length(away) > 0.5) return unit(away);
    const cv::Point2d along = unit(canvas.at(marks.back().foot_px) - canvas.at(marks.front().foot_px));
    return {along.y, -along.x};
}

double spacing_px(const Canvas& canvas, const std::vector<PhotoCurve>& ridges) {
    std::vector<double> gaps;
    for (std::size_t i = 1; i < ridges.size(); ++i) {
        const auto& a = ridges[i - 1].points;
        const auto& b = ridges[i].points;
        if (a.empty() || b.empty()) continue;
        gaps.push_back(length(canvas.at(b[b.size() / 2]) - canvas.at(a[a.size() / 2])));
    }
    if (gaps.empty()) return canvas.long_side_px();
    return median_of(gaps);
}

int number_step(double gap_px, double letter_px) {
    for (const int step : {5, 10, 20, 50}) {
        if (gap_px * step > 2.0 * letter_px) return step;
    }
    return 100;
}

void draw_curves(Canvas& canvas, const std::vector<PhotoCurve>& ridges, const cv::Scalar& colour) {
    const double gap_px = spacing_px(canvas, ridges);
    const double line_px = std::clamp(gap_px / 8.0, 1.0, 1.5 * canvas.line_px());
    const double casing_px = gap_px > 10.0 ? std::max(1.0, canvas.line_px() / 2.0) : 0.0;
    for (const auto& ridge : ridges) {
        std::vector<cv::Point2d> points;
        points.reserve(ridge.points.size());
        for (const auto& p : ridge.points) points.push_back(canvas.at(p));
        draw_stroke(canvas.picture, points, {colour, palette::casing, line_px, casing_px});
    }
}

void number_ridge(const Canvas& canvas, Numbers& numbers, const PhotoCurve& ridge, int number,
                  const cv::Scalar& colour) {
    if (ridge.points.size() < 2) return;
    const cv::Point2d end = canvas.at(ridge.points.front());
    const cv::Point2d away = unit(end - canvas.at(ridge.points[1]));
    numbers.draw(number, end + 1.1 * canvas.letter_px() * away, colour, palette::casing);
}

void number_ridges(const Canvas& canvas, Numbers& numbers, const std::vector<PhotoCurve>& ridges,
                   const cv::Scalar& colour) {
    if (ridges.empty()) return;
    const int first = ridges.front().index;
    const int step = number_step(spacing_px(canvas, ridges), canvas.letter_px());
    number_ridge(canvas, numbers, ridges.back(), ridges.back().index - first, colour);
    for (const auto& ridge : ridges) {
        if ((ridge.index - first) % step == 0)
            number_ridge(canvas, numbers, ridge, ridge.index - first, colour);
    }
}

}  // namespace

void draw_marks(Canvas& canvas, const ScaleResult& scale) {
    const auto& marks = scale.marks;
    if (marks.empty()) return;
    const Numbering numbering = numbering_of(canvas, scale);
    const double gap_px = length(canvas.at(marks.back().foot_px) - canvas.at(marks.front().foot_px)) /
                          std::max<double>(1.0, static_cast<double>(marks.size()) - 1.0);
    const double thin_px = gap_px > 3.0 * canvas.line_px() ? canvas.line_px() : canvas.line_px() / 2.0;
    for (const auto& mark : marks) {
        draw_stroke(canvas.picture, {canvas.at(mark.foot_px), canvas.at(mark.tip_px)},
                    {palette::ruler_mark, palette::light_casing, thin_px, 0.0});
    }
    Numbers numbers(canvas);
    for (const auto& mark : marks) {
        const double units = (mark.position_mm - numbering.zero_mm) / numbering.unit_mm;
        const int whole = static_cast<int>(std::lround(units));
        if (!near_whole(units) || whole % numbering.step != 0) continue;
        const cv::Point2d foot = canvas.at(mark.foot_px);
        const StrokeStyle style{palette::ruler_mark, palette::light_casing, 1.5 * canvas.line_px(),
                                canvas.line_px() / 2.0};
        draw_stroke(canvas.picture, {foot, canvas.at(mark.tip_px)}, style);
        draw_dot(canvas.picture, foot, 1.6 * canvas.line_px(), style);
        numbers.draw(whole, foot + 1.1 * canvas.letter_px() * outward(canvas, marks, mark),
                     palette::ruler_mark, palette::light_casing);
    }
}

void draw_outline(Canvas& canvas, const std::vector<PhotoPoint>& outline) {
    std::vector<cv::Point2d> points;
    points.reserve(outline.size());
    for (const auto& p : outline) points.push_back(canvas.at(p));
    draw_stroke(canvas.picture, points,
                {palette::outline, palette::casing, canvas.line_px(), canvas.line_px() / 2.0}, Ends::joined);
}

void draw_ridges(Canvas& canvas, const Overlay& overlay) {
    draw_curves(canvas, overlay.row_ridges, palette::row_ridge);
    draw_curves(canvas, overlay.stitch_ridges, palette::stitch_ridge);
    Numbers numbers(canvas);
    number_ridges(canvas, numbers, overlay.stitch_ridges, palette::stitch_ridge);
    number_ridges(canvas, numbers, overlay.row_ridges, palette::row_ridge);
}

}  // namespace ridgetally
