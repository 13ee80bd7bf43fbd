#include "report/caption.h"

#include <algorithm>
#include <string>

#include "core/units.h"
#include "report/draw/palette.h"
#include "report/draw/panel.h"
#include "report/figures.h"
#include "report/phrases.h"

namespace ridgetally {
namespace {

// A phone shows the picture about 65 mm wide. Figures of 1/27 of the width are then 2.4 mm high and side
// notes of 1/46 are 1.4 mm, capitals of about 10 and 6 point.
constexpr double figure_height = 1.0 / 27.0;
constexpr double note_height = 1.0 / 46.0;
constexpr std::size_t most_warning_lines =
    6;  // more would push the photo off the screen; the text has them all

constexpr double first_column = 0.27;
constexpr double second_column = 0.64;

PanelLine note(const std::string& text, int width_px, const cv::Scalar& colour) {
    return {{{text, 0.0, colour}}, note_height * width_px};
}

PanelLine gauge_line_of(std::string_view label, const Measured& per_10cm, int width_px) {
    return {{{capitalised(label), 0.0, palette::panel_text},
             {with_plus_minus(per_10cm, 1), first_column, palette::panel_text},
             {with_plus_minus(per_4in(per_10cm), 1), second_column, palette::panel_text}},
            figure_height * width_px};
}

void add_notes(Panel& panel, const std::string& text, int width_px, const cv::Scalar& colour,
               std::size_t at_most) {
    const auto lines = fitted_lines(text, note_height * width_px, 0.93 * width_px);
    for (std::size_t i = 0; i < std::min(lines.size(), at_most); ++i) {
        panel.lines.push_back(note(lines[i], width_px, colour));
    }
}

void add_warnings(Panel& panel, const std::vector<Warning>& warnings, int width_px) {
    const std::size_t before = panel.lines.size();
    for (const auto& warning : warnings) {
        const std::size_t used = panel.lines.size() - before;
        if (used >= most_warning_lines) break;
        add_notes(panel, "Take care: " + warning.message, width_px, palette::panel_warning,
                  most_warning_lines - used);
    }
}

std::string counted_note(const SwatchResult& result) {
    const Overlay& overlay = result.overlay;
    if (overlay.stitches_counted <= 0) return {};
    std::string text = "Counted here: " + std::to_string(overlay.stitches_counted) + " stitches";
    if (overlay.rows_counted <= 0) return text;
    return text + ", " + std::to_string(overlay.rows_counted) + " " +
           std::string(row_word(result.stitch.worked));
}

std::string rival_note(const std::vector<RivalGauge>& rivals) {
    if (rivals.empty()) return {};
    return "Take care: it may also be " + fixed(rivals.front().stitches_per_10cm, 1) + " stitches" +
           (rivals.front().rows_per_10cm > 0.0 ? ", " + fixed(rivals.front().rows_per_10cm, 1) + " rows"
                                               : "") +
           " per 10 cm; count a few by eye.";
}

std::vector<LegendEntry> legend_of(const SwatchResult& result) {
    std::vector<LegendEntry> legend;
    if (!result.scale.marks.empty()) {
        legend.push_back(
            {result.scale.unit == LengthUnit::mm ? "ruler, cm" : "ruler, in", palette::ruler_mark});
    }
    if (!result.overlay.outline.empty()) legend.push_back({"fabric", palette::outline});
    if (!result.overlay.row_ridges.empty()) {
        legend.push_back({std::string(row_word(result.stitch.worked)), palette::row_ridge});
    }
    if (!result.overlay.stitch_ridges.empty()) legend.push_back({"stitches", palette::stitch_ridge});
    return legend;
}

}  // namespace

cv::Mat swatch_caption(const SwatchResult& result, const Catalog& catalog, int width_px, Terms terms) {
    Panel panel;
    panel.legend_cap_height_px = note_height * width_px;
    panel.lines.push_back({{{"per 10 cm", first_column, palette::panel_quiet_text},
                            {"per 4 in", second_column, palette::panel_quiet_text}},
                           note_height * width_px});
    panel.lines.push_back(gauge_line_of("stitches", result.stitches_per_10cm, width_px));
    if (result.rows_per_10cm) {
        panel.lines.push_back(gauge_line_of(row_word(result.stitch.worked), *result.rows_per_10cm, width_px));
    }
    const std::size_t figures = panel.lines.size();
    add_notes(panel, stitch_sentence(result.stitch, catalog, terms), width_px, palette::panel_quiet_text, 2);
    add_notes(panel, counted_note(result), width_px, palette::panel_quiet_text, 2);
    add_notes(panel, rival_note(rivals_that_matter(result.rivals)), width_px, palette::panel_warning, 2);
    add_warnings(panel, result.warnings, width_px);
    if (panel.lines.size() > figures) panel.lines[figures].space_above_px = note_height * width_px;
    panel.legend = legend_of(result);
    return drawn_panel(panel, width_px);
}

cv::Mat scale_caption(const ScaleReport& report, const Catalog& catalog, int width_px) {
    const ScaleResult& scale = report.scale;
    Panel panel;
    panel.legend_cap_height_px = note_height * width_px;
    panel.lines.push_back(
        {{{with_plus_minus(scale.px_per_mm, 3) + " pixels per mm", 0.0, palette::panel_text}},
         figure_height * width_px});
    const std::size_t figures = panel.lines.size();
    add_notes(panel, capitalised(scale_sentence(scale, catalog, SizeUnit::cm)), width_px,
              palette::panel_quiet_text, 3);
    panel.lines[figures].space_above_px = note_height * width_px;
    add_warnings(panel, report.warnings, width_px);
    if (!scale.marks.empty()) {
        panel.legend.push_back({std::to_string(scale.marks.size()) + " marks read, numbers in " +
                                    (scale.unit == LengthUnit::mm ? "cm" : "inches"),
                                palette::ruler_mark});
    }
    return drawn_panel(panel, width_px);
}

}  // namespace ridgetally
