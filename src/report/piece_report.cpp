#include "report/piece_report.h"

#include "report/checks.h"
#include "report/document_parts.h"
#include "report/draw/canvas.h"
#include "report/draw/palette.h"
#include "report/draw/panel.h"
#include "report/draw/strokes.h"
#include "report/overlay.h"
#include "report/phrases.h"
#include "report/wrap.h"

namespace ridgetally {

Document piece_document(const PieceResult& result, const std::vector<CrownCheck>& checks,
                        const DocumentOptions& options) {
    Document document = document_head("piece");
    add_photos(document, result.photo, result.photos);
    document["scale"] = scale_block(result.scale);
    document["piece"] = {{"width_mm", measured_document(result.width_mm)},
                         {"height_mm", measured_document(result.height_mm)},
                         {"circumference_flat_mm", measured_document(result.circumference_flat_mm)}};
    if (!checks.empty()) document["checks"] = checks_document(checks);
    add_corrected(document, result.corrected);
    document["warnings"] = warnings_document(result.warnings);
    document["uncertainty"] = {{"width_mm", budget_document(result.width_mm)},
                               {"height_mm", budget_document(result.height_mm)}};
    if (options.annotated) document["annotated"] = *options.annotated;
    return document;
}

std::string piece_text(const PieceResult& result, const std::vector<CrownCheck>& checks,
                       const Catalog& catalog, const TextOptions& options) {
    std::string text = title_line(result.photo, result.photos) + "\n";
    text += "  Width    " + size_figure(result.width_mm, options.units) + "\n";
    text += "  Height   " + size_figure(result.height_mm, options.units) + "\n";
    text += "  Around   " + size_figure(result.circumference_flat_mm, options.units) +
            "   (a hat lying flat: twice its width)\n";
    text += "  (the true value lies within the \u00B1 in 95 of 100 photos)\n\n";
    text += check_lines(checks);
    text += paragraph("Scale: ", scale_sentence(result.scale, catalog, options.units));
    text += corrected_line(result.corrected);
    return text + warning_lines(result.warnings);
}

cv::Mat piece_picture(const cv::Mat& photo_bgr, const PieceResult& result, const PictureOptions& options) {
    Canvas canvas = canvas_over(photo_bgr, result.photo.width_px, options.long_side_px);
    draw_marks(canvas, result.scale);
    draw_outline(canvas, result.outline_px);
    for (const auto& line : result.lines) {
        std::vector<cv::Point2d> points;
        for (const auto& p : line.points) points.push_back(canvas.at(p));
        draw_stroke(canvas.picture, points,
                    {palette::row_ridge, palette::casing, 1.5 * canvas.line_px(), canvas.line_px()});
    }
    const int width_px = canvas.picture.cols;
    Panel panel;
    panel.legend_cap_height_px = width_px / 46.0;  // as in the caption of a swatch
    const auto add = [&](const std::string& label, const Measured& mm) {
        panel.lines.push_back({{{label, 0.0, palette::panel_text},
                                {size_figure(mm, SizeUnit::cm) + ", " + size_figure(mm, SizeUnit::inch), 0.3,
                                 palette::panel_text}},
                               width_px / 27.0});
    };
    add("Width", result.width_mm);
    add("Height", result.height_mm);
    add("Around", result.circumference_flat_mm);
    panel.legend = {{"edge", palette::outline}, {"measured along", palette::row_ridge}};
    cv::Mat both;
    cv::vconcat(drawn_panel(panel, width_px), canvas.picture, both);
    return both;
}

}  // namespace ridgetally
