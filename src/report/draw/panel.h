#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

namespace ridgetally {

/// A line of a panel: cells that start at fractions of the width, or a row of colour samples with their
/// meaning.
struct PanelCell {
    std::string text;
    double left = 0.0;  ///< of the text, as a fraction of the panel's inner width
    cv::Scalar colour;
};

/// A line of a panel: cells side by side, in letters of one height.
struct PanelLine {
    std::vector<PanelCell> cells;
    double cap_height_px = 20.0;
    double space_above_px = 0.0;  ///< more than the line height alone
};

/// What a line colour means.
struct LegendEntry {
    std::string text;
    cv::Scalar colour;
};

struct Panel {
    std::vector<PanelLine> lines;
    std::vector<LegendEntry> legend;  ///< one line below the others; wrapped where it is too long
    double legend_cap_height_px = 16.0;
};

/// Text of one style cut into lines that fit `width_px`.
[[nodiscard]] std::vector<std::string> fitted_lines(const std::string& utf8, double cap_height_px,
                                                    double width_px);

/// Draws the panel, `width_px` wide and as high as its lines need. A line that does not fit is written
/// smaller.
[[nodiscard]] cv::Mat drawn_panel(const Panel& panel, int width_px);

}  // namespace ridgetally
