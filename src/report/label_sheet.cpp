#include "report/label_sheet.h"

#include <algorithm>
#include <cmath>

#include "report/figures.h"
#include "report/one_line.h"
#include "report/svg.h"
#include "report/wrap.h"
#include "report/yarn_words.h"
#include "yarns/gauge_by_hook.h"

namespace ridgetally {
namespace {

constexpr double label_width = 90.0;
constexpr double label_height = 50.0;
constexpr double least_margin = 8.0;  // what most printers leave white; common practice, no source

/// Places of the labels on a sheet.
struct Grid {
    int columns = 1;
    int rows = 1;
    double left = 0.0;
    double top = 0.0;
    [[nodiscard]] int count() const { return columns * rows; }
};

Grid grid_on(const SheetSize& sheet) {
    const auto fit = [](double room, double size) {
        return std::max(1, static_cast<int>(std::floor((room - 2.0 * least_margin) / size)));
    };
    Grid grid{fit(sheet.width_mm, label_width), fit(sheet.height_mm, label_height)};
    grid.left = (sheet.width_mm - grid.columns * label_width) / 2.0;
    grid.top = (sheet.height_mm - grid.rows * label_height) / 2.0;
    return grid;
}

/// Words may be cut where they would get too small to be read, figures never.
enum class Line { words, figures };

/// One line of a label, made smaller where it is long. A letter of a plain typeface in bold is about 0.65 of
/// its size wide (common practice, no source).
std::string fitted_line(double y, double size, const std::string& text, Line kind, std::string_view weight) {
    constexpr double left = 4.0;
    constexpr double room = label_width - 2.0 * left;
    constexpr double letter = 0.65;
    constexpr double least_size = 2.5;  // 7 points
    const auto columns = static_cast<double>(std::max<std::size_t>(1, columns_of(text)));
    double fitting = std::min(size, room / (letter * columns));
    if (kind == Line::figures) return svg::text(left, y, fitting, text, svg::Anchor::start, weight);
    fitting = std::max(fitting, least_size);
    const auto most = static_cast<std::size_t>(room / (letter * fitting) + 1e-9);
    return svg::text(left, y, fitting, shortened(text, most), svg::Anchor::start, weight);
}

std::string yarn_line(const Yarn& yarn) {
    std::string text;
    if (!yarn.colour.empty()) text = "colour " + one_line(yarn.colour);
    if (!yarn.dye_lot.empty())
        text += (text.empty() ? "" : ", ") + std::string("dye lot ") + one_line(yarn.dye_lot);
    return text;
}

std::string size_line(const Measurement& m) {
    std::string text;
    if (m.width_mm && m.height_mm)
        text = fixed(*m.width_mm / 10.0, 1) + " x " + fixed(*m.height_mm / 10.0, 1) + " cm";
    if (m.diameter_mm) text = fixed(*m.diameter_mm / 10.0, 1) + " cm across";
    if (m.mass_g) text += (text.empty() ? "" : ", ") + fixed(*m.mass_g, 1) + " g";
    return text;
}

std::string exact_line(const Measurement& m, SizeUnit units) {
    const auto stitches = stitches_of(m);
    if (!stitches) return {};
    std::string text = with_plus_minus(over_span(*stitches, units), 1) + " st";
    if (const auto rows = rows_of(m)) text += ", " + with_plus_minus(over_span(*rows, units), 1) + " rows";
    return text + " over " + span_text(units);
}

std::string label(const LabelledSwatch& swatch, double x, double y, const Catalog& catalog,
                  const TextOptions& options) {
    const auto& [number, m] = swatch.stored;
    std::string content = "<g transform=\"translate(" + svg::number(x) + " " + svg::number(y) +
                          ")\">\n<rect" + svg::attribute("width", label_width) +
                          svg::attribute("height", label_height) + svg::attribute("fill", "none") +
                          svg::attribute("stroke", "#888888") + svg::attribute("stroke-width", 0.2) +
                          svg::attribute("stroke-dasharray", "2 1.5") + "/>\n<circle" +
                          svg::attribute("cx", label_width - 6.0) + svg::attribute("cy", 6.0) +
                          svg::attribute("r", 2.0) + svg::attribute("fill", "none") +
                          svg::attribute("stroke", "#888888") + svg::attribute("stroke-width", 0.2) + "/>\n";
    double at = 0.0;
    const auto write = [&](double advance, double size, const std::string& text, Line kind,
                           const char* weight = "normal") {
        at += advance;
        content += fitted_line(at, size, text, kind, weight);
    };
    const GaugeKind kind = kind_of(m);
    const std::string state = kind.state ? "; " + state_text(kind.state) : "";
    const std::string size = size_line(m);
    write(8.0, 4.5, "No. " + std::to_string(number), Line::figures, "bold");
    write(7.5, 5.0, one_line(swatch.yarn.name), Line::words, "bold");
    write(5.5, 3.6, yarn_line(swatch.yarn), Line::words);
    write(7.0, 4.2,
          "hook " + hook_text(kind.hook_mm) + "; " + stitch_text(kind, catalog, options.terms) + state,
          Line::figures);
    if (const auto stitches = stitches_of(m)) {
        const GaugeOfFabric gauge{kind.stitch, kind.worked, *stitches, rows_of(m)};
        write(6.5, 4.2, gauge_line(gauge, catalog, options), Line::figures, "bold");
        write(5.5, 3.6, exact_line(m, options.units), Line::figures);
    }
    write(5.5, 3.6, m.taken + (size.empty() ? "" : "; " + size), Line::figures);
    return content + "</g>\n";
}

}  // namespace

std::vector<std::string> label_sheets(const std::vector<LabelledSwatch>& swatches, const SheetSize& sheet,
                                      const Catalog& catalog, const TextOptions& options) {
    const Grid grid = grid_on(sheet);
    std::vector<std::string> sheets;
    std::string content;
    for (std::size_t i = 0; i < swatches.size(); ++i) {
        const int place = static_cast<int>(i) % grid.count();
        const int column = place % grid.columns;
        const int row = place / grid.columns;
        const double x = grid.left + column * label_width;
        const double y = grid.top + row * label_height;
        content += label(swatches[i], x, y, catalog, options);
        if (place + 1 == grid.count() || i + 1 == swatches.size()) {
            sheets.push_back(svg::document_mm(sheet.width_mm, sheet.height_mm, content));
            content.clear();
        }
    }
    return sheets;
}

}  // namespace ridgetally
