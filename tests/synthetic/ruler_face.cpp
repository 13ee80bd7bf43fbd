#include "synthetic/ruler_face.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/random.h"
#include "core/units.h"
#include "synthetic/noise.h"

namespace ridgetally::synthetic {
namespace {

struct Look {
    Colour body;
    Colour ink;
    int opacity;
    double grain;  ///< 8-bit steps of streaks along the length
};

Look look_of(const Ruler& ruler, Random& random) {
    const auto vary = [&](double v, double by) { return static_cast<float>(v + random.uniform(-by, by)); };
    switch (ruler.make) {
        case RulerMake::steel: {
            const float g = vary(190, 25);
            return {{g + 4, g, g - 2}, {35, 32, 30}, 255, 9};
        }
        case RulerMake::wood:
            return {{vary(120, 25), vary(175, 20), vary(210, 15)}, {25, 28, 35}, 255, 16};
        case RulerMake::clear:
            return {{235, 235, 232}, {30, 28, 28}, static_cast<int>(vary(80, 40)), 2};
        case RulerMake::tape:
            return random.uniform(0, 1) < 0.6
                       ? Look{{vary(60, 25), vary(205, 15), vary(235, 12)}, {20, 20, 25}, 255, 3}
                       : Look{{vary(235, 8), vary(238, 6), vary(240, 6)}, {20, 20, 25}, 255, 3};
        case RulerMake::black: {
            const float g = vary(38, 14);
            return {{g + 1, g, g}, {225, 228, 228}, 255, 3};
        }
        case RulerMake::white: {
            const float g = vary(233, 10);
            return {{g - 2, g, g}, {40, 30, 25}, 255, 2};
        }
    }
    return {};
}

void streaks(Canvas& canvas, double strength, std::uint64_t seed) {
    const cv::Mat1f tile = fractal_tile(512, 4, 64, 3, seed);
    for (int y = 0; y < canvas.pixels.rows; ++y)
        for (int x = 0; x < canvas.pixels.cols; ++x) {
            const double mm_x = x / canvas.px_per_mm, mm_y = y / canvas.px_per_mm;
            const double v = strength * static_cast<double>(tile_at(tile, static_cast<float>(mm_x * 1.5),
                                                                    static_cast<float>(mm_y * 14.0)));
            for (int c = 0; c < 3; ++c)
                canvas.pixels(y, x)[c] = cv::saturate_cast<uchar>(canvas.pixels(y, x)[c] + 2.0 * v);
        }
}

int marks_a_unit(const Graduation& g) { return g.inch ? g.divisions : 10 * g.divisions; }

bool has_mark(const Graduation& g, int index) {
    return g.fine == FineMarks::everywhere || index <= marks_a_unit(g) || index % marks_a_unit(g) == 0;
}

/// How far marks and blocks reach inwards.
double printed_mm(const Graduation& g) { return g.longest_mm * (g.blocks == Blocks::none ? 1.0 : 2.0); }

/// One edge in "edge co-ordinates": `in` mm inwards from the edge.
class Edge {
  public:
    Edge(Canvas& canvas, const Ruler& ruler, const Graduation& graduation, Upright upright, const Colour& ink)
        : canvas_(canvas), ruler_(ruler), graduation_(graduation), upright_(upright), ink_(ink) {}

    void paint(Random& random) {
        const int face =
            std::array{cv::FONT_HERSHEY_SIMPLEX, cv::FONT_HERSHEY_DUPLEX, cv::FONT_HERSHEY_COMPLEX,
                       cv::FONT_HERSHEY_TRIPLEX}[static_cast<std::size_t>(random.whole(0, 3))];
        const int count = mark_count(ruler_, graduation_);
        for (int i = 0; i < count; ++i) {
            const double keep = random.uniform(0.0, 1.0);
            if (keep < graduation_.wear || !has_mark(graduation_, i)) continue;
            mark(i);
            if (graduation_.numerals && i % marks_a_unit(graduation_) == 0 && i > 0) numeral(i, count, face);
        }
        if (graduation_.blocks == Blocks::alternating) blocks(count);
    }

  private:
    [[nodiscard]] double y_of(double in) const { return upright_ == Upright::up ? in : ruler_.width_mm - in; }

    void mark(int i) {
        const double x = mark_place_mm(ruler_, graduation_, i);
        const double y0 = y_of(0.0), y1 = y_of(graduation_.longest_mm * mark_ratio(graduation_, i));
        const double half = graduation_.mark_width_mm / 2.0;
        paint_box(canvas_, x - half, std::min(y0, y1), x + half, std::max(y0, y1), ink_, 0.92);
    }

    /// Every second unit is a block of ink; lines of a mark's width run along both sides.
    void blocks(int count) {
        const int unit = marks_a_unit(graduation_);
        const double from = graduation_.longest_mm, to = 2.0 * from;
        const auto box = [&](double x0, double x1, double in0, double in1) {
            paint_box(canvas_, x0, std::min(y_of(in0), y_of(in1)), x1, std::max(y_of(in0), y_of(in1)), ink_,
                      0.92);
        };
        const auto place = [&](int i) { return mark_place_mm(ruler_, graduation_, i); };
        const double half = graduation_.mark_width_mm / 2.0;
        for (int i = 0; i < count; i += unit) {
            box(place(i) - half, place(i) + half, from, to);
            if (i / unit % 2 != 0 && i + unit < count) box(place(i), place(i + unit), from, to);
        }
        for (const double in : {from, to}) box(place(0), place(count - 1), in - half, in + half);
    }

    void numeral(int i, int count, int face) {
        const int major = marks_a_unit(graduation_);
        const int number = graduation_.numerals_reversed ? (count - 1) / major - i / major : i / major;
        const double tall = std::min(graduation_.numerals_in_mm ? 2.4 : 3.4, ruler_.width_mm * 0.14);
        const std::string text = std::to_string(graduation_.numerals_in_mm ? 10 * number : number);
        paint_text(canvas_, text, mark_place_mm(ruler_, graduation_, i),
                   y_of(printed_mm(graduation_) + 0.75 * tall), tall, ink_, upright_, face);
    }

    Canvas& canvas_;
    const Ruler& ruler_;
    const Graduation& graduation_;
    Upright upright_;
    Colour ink_;
};

void ends(Canvas& canvas, const Ruler& ruler, const Colour& ink) {
    if (ruler.make == RulerMake::steel)
        paint_disc(canvas, ruler.length_mm - 6.0, ruler.width_mm / 2.0, 2.2, {70, 68, 66});
    if (ruler.make == RulerMake::tape) paint_box(canvas, 0.0, 0.0, 3.0, ruler.width_mm, {150, 155, 160}, 1.0);
    if (ruler.make == RulerMake::clear) {
        paint_box(canvas, 0.0, 0.0, ruler.length_mm, 0.5, {250, 250, 250}, 0.6);
        paint_box(canvas, 0.0, ruler.width_mm - 0.5, ruler.length_mm, ruler.width_mm, {120, 120, 120}, 0.6);
    }
    if (ruler.make == RulerMake::wood && ruler.upper && !ruler.lower)
        paint_box(canvas, 0.0, ruler.width_mm - 2.0, ruler.length_mm, ruler.width_mm, ink, 0.25);
}

}  // namespace

double mark_spacing_mm(const Graduation& g) { return (g.inch ? mm_per_inch : 1.0) / g.divisions; }

double mark_place_mm(const Ruler& ruler, const Graduation& g, int index) {
    return ruler.zero_mm + index * mark_spacing_mm(g);
}

int mark_count(const Ruler& ruler, const Graduation& g) {
    const double unit_mm = g.inch ? mm_per_inch : 10.0;
    const double room = ruler.length_mm - 2.0 * std::min(ruler.zero_mm, 6.0) -
                        (ruler.zero_mm > 6.0 ? ruler.zero_mm - 6.0 : 0.0);
    const int wholes = static_cast<int>(std::floor(room / unit_mm));
    return wholes * marks_a_unit(g) + 1;
}

double mark_ratio(const Graduation& g, int index) {
    const double f = g.finest_ratio;
    if (!g.inch) {
        if (index % (10 * g.divisions) == 0) return 1.0;
        if (index % (5 * g.divisions) == 0) return 0.5 * (1.0 + f);
        return index % g.divisions == 0 ? f : 0.65 * f;
    }
    if (index % g.divisions == 0) return 1.0;
    if (index % (g.divisions / 2) == 0) return f + 0.7 * (1.0 - f);
    if (index % (g.divisions / 4) == 0) return f + 0.4 * (1.0 - f);
    if (g.divisions == 16 && index % 2 == 0) return f + 0.15 * (1.0 - f);
    return g.divisions == 16 ? 0.8 * f : f;
}

Vec3 on_table(const Ruler& ruler, double x_mm, double y_mm) {
    const double a = ruler.angle_deg / degrees_per_radian;
    const double x = x_mm - ruler.length_mm / 2.0, y = y_mm - ruler.width_mm / 2.0;
    return {ruler.centre_x_mm + std::cos(a) * x - std::sin(a) * y,
            ruler.centre_y_mm + std::sin(a) * x + std::cos(a) * y, 0.0};
}

Canvas ruler_face(const Ruler& ruler, double px_per_mm) {
    Random random(ruler.seed * 11 + 5);
    const Look look = look_of(ruler, random);
    Canvas canvas = blank_canvas(ruler.length_mm, ruler.width_mm, px_per_mm, look.body, look.opacity);
    streaks(canvas, look.grain, ruler.seed);
    ends(canvas, ruler, look.ink);
    if (ruler.upper) Edge(canvas, ruler, *ruler.upper, Upright::up, look.ink).paint(random);
    if (ruler.lower) Edge(canvas, ruler, *ruler.lower, Upright::down, look.ink).paint(random);
    return canvas;
}

}  // namespace ridgetally::synthetic
