#include "report/crown_picture.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "report/draw/canvas.h"
#include "report/draw/lettering.h"
#include "report/draw/palette.h"
#include "report/draw/panel.h"
#include "report/draw/strokes.h"
#include "report/figures.h"
#include "report/overlay.h"
#include "report/phrases.h"

namespace ridgetally {
namespace {

// As in the caption of a swatch: figures of 2.4 mm, notes of 1.4 mm on a phone's 65 mm.
constexpr double figure_height = 1.0 / 27.0;
constexpr double note_height = 1.0 / 46.0;

std::vector<cv::Point2d> on_canvas(const Canvas& canvas, const std::vector<PhotoPoint>& points) {
    std::vector<cv::Point2d> result;
    for (const auto& p : points) result.push_back(canvas.at(p));
    return result;
}

void write_number(Canvas& canvas, int number, const cv::Point2d& centre, const cv::Scalar& colour) {
    const std::string text = std::to_string(number);
    const double height = 0.8 * canvas.letter_px();
    const double width = text_width_px(text, height);
    draw_text(canvas.picture, text, {centre.x - width / 2.0, centre.y + height / 2.0},
              {height, colour, palette::casing, std::max(1.0, canvas.line_px())});
}

void draw_rounds(Canvas& canvas, const CrownOverlay& overlay) {
    const StrokeStyle style{palette::row_ridge, palette::casing, canvas.line_px(), canvas.line_px() / 2.0};
    for (const auto& round : overlay.rounds) {
        draw_stroke(canvas.picture, on_canvas(canvas, round.points), style, Ends::joined);
        if (round.index < 1 || round.points.empty()) continue;
        write_number(canvas, round.index, canvas.at(round.points.front()), palette::row_ridge);
    }
}

void draw_stitches(Canvas& canvas, const CrownOverlay& overlay) {
    const StrokeStyle style{palette::stitch_ridge, palette::casing, canvas.line_px(), canvas.line_px() / 2.0};
    for (const auto& stitch : overlay.stitches) {
        const auto points = on_canvas(canvas, stitch.points);
        draw_stroke(canvas.picture, points, style);
        constexpr int every = 5;
        if (points.size() < 2 || stitch.index % every != 0) continue;
        const cv::Point2d out = points.front() - points.back();
        const double length = std::max(1.0, std::hypot(out.x, out.y));
        write_number(canvas, stitch.index, points.front() + out * (canvas.letter_px() / length),
                     palette::stitch_ridge);
    }
}

void draw_diameters(Canvas& canvas, const std::vector<DirectedDiameter>& diameters) {
    const StrokeStyle style{palette::ruler_mark, palette::light_casing, canvas.line_px(),
                            canvas.line_px() / 2.0};
    for (std::size_t i = 0; i < diameters.size(); i += 2)  // every second: two at right angles
        draw_stroke(canvas.picture, {canvas.at(diameters[i].from_px), canvas.at(diameters[i].to_px)}, style);
}

cv::Mat crown_caption(const CrownResult& result, const Catalog& catalog, int width_px, Terms terms) {
    Panel panel;
    panel.legend_cap_height_px = note_height * width_px;
    const auto line = [&](const std::string& label, const std::string& figure) {
        panel.lines.push_back({{{label, 0.0, palette::panel_text}, {figure, 0.36, palette::panel_text}},
                               figure_height * width_px});
    };
    line("Across", size_figure(result.diameter_mm, SizeUnit::cm) + ", " +
                       size_figure(result.diameter_mm, SizeUnit::inch));
    if (result.rounds)
        line("Rounds",
             fixed(result.rounds->count.value, 0) + range_note(result.rounds->least, result.rounds->most));
    if (const auto& last = result.last_round_stitches)
        line("Last round", fixed(last->count.value, 0) + " stitches" + range_note(last->least, last->most));
    const auto add = [&](const std::string& text, const cv::Scalar& colour) {
        for (const auto& part : fitted_lines(text, note_height * width_px, 0.93 * width_px))
            panel.lines.push_back({{{part, 0.0, colour}}, note_height * width_px});
    };
    const std::size_t figures = panel.lines.size();
    if (result.stitch.family) add(stitch_sentence(result.stitch, catalog, terms), palette::panel_quiet_text);
    for (const auto& warning : result.warnings) add("Take care: " + warning.message, palette::panel_warning);
    if (panel.lines.size() > figures) panel.lines[figures].space_above_px = note_height * width_px;
    panel.legend.push_back({"edge", palette::outline});
    if (!result.overlay.rounds.empty()) panel.legend.push_back({"rounds", palette::row_ridge});
    if (!result.overlay.stitches.empty()) panel.legend.push_back({"stitches", palette::stitch_ridge});
    panel.legend.push_back({"diameters, ruler", palette::ruler_mark});
    return drawn_panel(panel, width_px);
}

}  // namespace

cv::Mat crown_picture(const cv::Mat& photo_bgr, const CrownResult& result, const Catalog& catalog,
                      const PictureOptions& options) {
    Canvas canvas = canvas_over(photo_bgr, result.photo.width_px, options.long_side_px);
    draw_marks(canvas, result.scale);
    draw_diameters(canvas, result.diameters);
    draw_rounds(canvas, result.overlay);
    draw_outline(canvas, result.overlay.outline);
    draw_stitches(canvas, result.overlay);
    cv::Mat both;
    cv::vconcat(crown_caption(result, catalog, canvas.picture.cols, options.terms), canvas.picture, both);
    return both;
}

}  // namespace ridgetally
