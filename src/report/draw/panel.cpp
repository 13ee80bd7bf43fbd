#include "report/draw/panel.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "report/draw/lettering.h"
#include "report/draw/palette.h"
#include "report/draw/strokes.h"

namespace ridgetally {
namespace {

constexpr double line_height = 1.9;    // baseline to baseline over cap height
constexpr double margin_width = 0.03;  // of the panel's width, on every side

struct Frame {
    int width_px = 0;
    double margin_px = 0.0;
    [[nodiscard]] double inner_px() const { return width_px - 2.0 * margin_px; }
};

Frame frame_of(int width_px) { return {width_px, margin_width * width_px}; }

/// The cap height at which every cell ends before the next one begins.
double fitting_height(const PanelLine& line, const Frame& frame) {
    double height = line.cap_height_px;
    for (std::size_t i = 0; i < line.cells.size(); ++i) {
        const double right = i + 1 < line.cells.size() ? line.cells[i + 1].left : 1.0;
        const double room = (right - line.cells[i].left) * frame.inner_px();
        const double width = text_width_px(line.cells[i].text, line.cap_height_px);
        if (width > room && width > 0.0) height = std::min(height, line.cap_height_px * room / width);
    }
    return height;
}

double sample_px(double cap_height_px) { return 2.0 * cap_height_px; }

double entry_width_px(const LegendEntry& entry, double cap_height_px) {
    return sample_px(cap_height_px) + 0.6 * cap_height_px + text_width_px(entry.text, cap_height_px) +
           1.6 * cap_height_px;
}

/// Left end and line number of every legend entry.
struct LegendPlace {
    double left_px = 0.0;
    int line = 0;
};

std::vector<LegendPlace> legend_places(const Panel& panel, const Frame& frame) {
    std::vector<LegendPlace> places;
    LegendPlace next{frame.margin_px, 0};
    for (const auto& entry : panel.legend) {
        const double width = entry_width_px(entry, panel.legend_cap_height_px);
        if (next.left_px > frame.margin_px && next.left_px + width > frame.width_px - frame.margin_px) {
            next = {frame.margin_px, next.line + 1};
        }
        places.push_back(next);
        next.left_px += width;
    }
    return places;
}

void draw_legend(cv::Mat& picture, const Panel& panel, const std::vector<LegendPlace>& places,
                 double top_px) {
    const double height = panel.legend_cap_height_px;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double baseline = top_px + (places[i].line + 1) * line_height * height - 0.45 * height;
        const double left = places[i].left_px;
        const double middle = baseline - 0.45 * height;
        draw_stroke(picture, {{left, middle}, {left + sample_px(height), middle}},
                    {panel.legend[i].colour, palette::panel_text, std::max(2.0, 0.25 * height), 1.0});
        draw_text(picture, panel.legend[i].text, {left + sample_px(height) + 0.6 * height, baseline},
                  {height, palette::panel_quiet_text, palette::panel, 0.0});
    }
}

}  // namespace

std::vector<std::string> fitted_lines(const std::string& utf8, double cap_height_px, double width_px) {
    std::istringstream words(utf8);
    std::vector<std::string> lines;
    for (std::string word; words >> word;) {
        if (!lines.empty() && text_width_px(lines.back() + " " + word, cap_height_px) <= width_px) {
            lines.back() += " " + word;
        } else {
            lines.push_back(word);
        }
    }
    return lines;
}

cv::Mat drawn_panel(const Panel& panel, int width_px) {
    const Frame frame = frame_of(width_px);
    std::vector<double> heights;
    double total = frame.margin_px;
    for (const auto& line : panel.lines) {
        heights.push_back(fitting_height(line, frame));
        total += line.space_above_px + line_height * heights.back();
    }
    const double legend_top = total;
    const auto places = legend_places(panel, frame);
    if (!places.empty()) total += (places.back().line + 1) * line_height * panel.legend_cap_height_px;
    cv::Mat picture(static_cast<int>(std::ceil(total + 0.5 * frame.margin_px)), width_px, CV_8UC3,
                    palette::panel);
    double baseline = frame.margin_px - 0.45 * (heights.empty() ? 0.0 : heights.front());
    for (std::size_t i = 0; i < panel.lines.size(); ++i) {
        baseline += panel.lines[i].space_above_px + line_height * heights[i];
        for (const auto& cell : panel.lines[i].cells) {
            draw_text(picture, cell.text, {frame.margin_px + cell.left * frame.inner_px(), baseline},
                      {heights[i], cell.colour, palette::panel, 0.0});
        }
    }
    draw_legend(picture, panel, places, legend_top);
    return picture;
}

}  // namespace ridgetally
