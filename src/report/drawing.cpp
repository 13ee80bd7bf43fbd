#include "report/drawing.h"

#include <cmath>

#include "report/draw/lettering.h"
#include "report/draw/palette.h"
#include "report/draw/strokes.h"

namespace ridgetally {
namespace {

constexpr double mark_radius_mm = 1.5;
const cv::Scalar paper{255, 255, 255};

std::string title_of(const DrawnMark& mark) {
    return mark.title.empty() ? "" : "<title>" + svg::escaped(mark.title) + "</title>";
}

struct AsSvg {
    std::string operator()(const DrawnLine& line) const {
        return svg::line(line.x1, line.y1, line.x2, line.y2, svg::colour(line.colour), line.width);
    }
    std::string operator()(const DrawnText& text) const {
        return svg::text(text.x, text.y, text.size, text.text, text.anchor, text.weight);
    }
    std::string operator()(const DrawnMark& mark) const {
        return "<g>" + title_of(mark) + form_of(mark) + "</g>\n";
    }

  private:
    static std::string form_of(const DrawnMark& mark) {
        constexpr double r = mark_radius_mm;
        if (mark.form == MarkForm::ring) {
            return "<circle" + svg::attribute("cx", mark.x) + svg::attribute("cy", mark.y) +
                   svg::attribute("r", r) + svg::attribute("fill", svg::colour(paper)) +
                   svg::attribute("stroke", svg::colour(palette::ruler_mark)) +
                   svg::attribute("stroke-width", 0.7) + "/>";
        }
        return "<rect" + svg::attribute("x", mark.x - r) + svg::attribute("y", mark.y - r) +
               svg::attribute("width", 2.0 * r) + svg::attribute("height", 2.0 * r) +
               svg::attribute("fill", svg::colour(palette::row_ridge)) +
               svg::attribute("stroke", svg::colour(drawing_ink)) + svg::attribute("stroke-width", 0.3) +
               "/>";
    }
};

class Painter {
  public:
    Painter(cv::Mat& picture, double px_per_mm) : picture_(picture), px_per_mm_(px_per_mm) {}

    void operator()(const DrawnLine& line) const {
        draw_stroke(picture_, {at(line.x1, line.y1), at(line.x2, line.y2)}, stroke(line.colour, line.width));
    }
    void operator()(const DrawnText& text) const {
        constexpr double capitals = 0.7;  // of the font's size, as most fonts have them
        const double cap_px = capitals * text.size * px_per_mm_;
        const double width_px = text_width_px(text.text, cap_px);
        cv::Point2d origin = at(text.x, text.y);
        if (text.anchor == svg::Anchor::middle) origin.x -= 0.5 * width_px;
        if (text.anchor == svg::Anchor::end) origin.x -= width_px;
        LetterStyle style;
        style.cap_height_px = cap_px;
        style.colour = drawing_ink;
        if (text.weight == "bold") style.boldness *= 1.5;
        draw_text(picture_, text.text, origin, style);
    }
    void operator()(const DrawnMark& mark) const {
        constexpr double r = mark_radius_mm;
        if (mark.form == MarkForm::ring) {
            draw_dot(picture_, at(mark.x, mark.y), (r - 0.35) * px_per_mm_,
                     {paper, palette::ruler_mark, 0.0, 0.7 * px_per_mm_});
            return;
        }
        // A square is a line as wide as it is long, on a slightly larger one.
        for (const auto& [half, colour] :
             {std::pair(r + 0.15, drawing_ink), std::pair(r - 0.15, palette::row_ridge)})
            fill_square(mark, half, colour);
    }

  private:
    [[nodiscard]] cv::Point2d at(double x_mm, double y_mm) const {
        return {x_mm * px_per_mm_ - 0.5, y_mm * px_per_mm_ - 0.5};
    }
    [[nodiscard]] StrokeStyle stroke(const cv::Scalar& colour, double width_mm) const {
        return {colour, colour, std::max(1.0, width_mm * px_per_mm_), 0.0};
    }
    void fill_square(const DrawnMark& mark, double half_mm, const cv::Scalar& colour) const {
        const cv::Point2d a = at(mark.x - half_mm, mark.y - half_mm);
        const int side = cvRound(2.0 * half_mm * px_per_mm_);
        const cv::Rect whole(0, 0, picture_.cols, picture_.rows);
        picture_(cv::Rect(cvRound(a.x), cvRound(a.y), side, side) & whole).setTo(colour);
    }

    cv::Mat& picture_;
    double px_per_mm_;
};

}  // namespace

std::string svg_of(const Drawing& drawing) {
    std::string content;
    for (const auto& part : drawing.parts) content += std::visit(AsSvg{}, part);
    return svg::document_mm(drawing.width_mm, drawing.height_mm, content);
}

cv::Mat picture_of(const Drawing& drawing, double px_per_mm) {
    cv::Mat picture(cvRound(drawing.height_mm * px_per_mm), cvRound(drawing.width_mm * px_per_mm), CV_8UC3,
                    paper);
    for (const auto& part : drawing.parts) std::visit(Painter(picture, px_per_mm), part);
    return picture;
}

}  // namespace ridgetally
