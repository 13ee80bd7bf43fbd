#include "report/yarn_plot.h"

#include <algorithm>
#include <cmath>

#include "report/draw/palette.h"
#include "report/one_line.h"
#include "report/plot_axis.h"
#include "report/svg.h"
#include "report/table.h"
#include "report/wrap.h"
#include "report/yarn_words.h"

namespace ridgetally {
namespace {

bool is_washed(const HookGauge& gauge) { return gauge.kind.state == FabricState::washed; }

std::vector<double> ends_of_intervals(const std::vector<HookGauge>& gauges, SizeUnit units) {
    std::vector<double> ends;
    for (const auto& gauge : gauges) {
        const Measured stitches = over_span(gauge.stitches_per_10cm, units);
        ends.push_back(stitches.low95());
        ends.push_back(stitches.high95());
    }
    return ends;
}

constexpr int label_columns = 12;
constexpr int plot_columns = 60;

int column_of(const PlotAxis& axis, double value) {
    return static_cast<int>(std::lround(axis.place(value) * (plot_columns - 1)));
}

std::string without_blanks_at_end(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
}

std::string padded_label(const std::string& label) {
    return "  " + label +
           std::string(label_columns - std::min<std::size_t>(columns_of(label), label_columns), ' ');
}

/// The marks of the axis with their numbers centred above them.
std::string scale_lines(const PlotAxis& axis) {
    std::string numbers(plot_columns + 8, ' ');
    std::string marks(plot_columns, '-');
    for (const double mark : axis.marks) {
        const std::string number = plain_number(mark);
        const int column = column_of(axis, mark);
        const auto at = static_cast<std::size_t>(std::max(0, column - static_cast<int>(number.size()) / 2));
        numbers.replace(at, number.size(), number);
        marks[static_cast<std::size_t>(column)] = '+';
    }
    return padded_label("") + without_blanks_at_end(numbers) + padded_label("") + marks + "\n";
}

std::string gauge_line_of_plot(const HookGauge& gauge, const PlotAxis& axis, SizeUnit units) {
    const Measured stitches = over_span(gauge.stitches_per_10cm, units);
    std::string line(plot_columns, ' ');
    const auto low = static_cast<std::size_t>(column_of(axis, stitches.low95()));
    const auto high = static_cast<std::size_t>(column_of(axis, stitches.high95()));
    for (std::size_t i = low; i <= high; ++i) line[i] = '-';
    line[low] = '|';
    line[high] = '|';
    line[static_cast<std::size_t>(column_of(axis, stitches.value))] = is_washed(gauge) ? '#' : 'o';
    return without_blanks_at_end(padded_label(hook_text(gauge.kind.hook_mm)) + line);
}

// Millimetres of the SVG document.
constexpr double width = 160.0;
constexpr double height = 110.0;
constexpr double left = 22.0;
constexpr double right = width - 8.0;
constexpr double top = 16.0;
constexpr double bottom = height - 24.0;
constexpr double margin = 9.0;  // beside the first and the last hook, for gauges that stand beside each other
constexpr double small_text = 3.6;
constexpr const char* ink = "#222222";
constexpr const char* grid = "#d5d5d5";

struct Axes {
    PlotAxis hook_mm;
    PlotAxis stitches;
    [[nodiscard]] double x(double mm) const {
        return left + margin + hook_mm.place(mm) * (right - left - 2.0 * margin);
    }
    [[nodiscard]] double y(double count) const { return bottom - stitches.place(count) * (bottom - top); }
};

std::string grid_svg(const Axes& axes, const std::string& span) {
    std::string content;
    for (const double mm : axes.hook_mm.marks) {
        content += svg::line(axes.x(mm), top, axes.x(mm), bottom, grid, 0.2) +
                   svg::text(axes.x(mm), bottom + 5.0, small_text, plain_number(mm), svg::Anchor::middle);
    }
    for (const double count : axes.stitches.marks) {
        content +=
            svg::line(left, axes.y(count), right, axes.y(count), grid, 0.2) +
            svg::text(left - 2.0, axes.y(count) + 1.3, small_text, plain_number(count), svg::Anchor::end);
    }
    content += svg::text((left + right) / 2.0, bottom + 11.0, small_text, "hook, mm", svg::Anchor::middle);
    return content + "<g transform=\"translate(7 " + svg::number((top + bottom) / 2.0) + ") rotate(-90)\">" +
           svg::text(0.0, 0.0, small_text, "stitches over " + span, svg::Anchor::middle) + "</g>\n";
}

/// A ring, or for washed fabric a full square.
std::string mark_svg(double x, double y, const HookGauge& gauge) {
    constexpr double r = 1.5;
    if (!is_washed(gauge)) {
        return "<circle" + svg::attribute("cx", x) + svg::attribute("cy", y) + svg::attribute("r", r) +
               svg::attribute("fill", "#ffffff") +
               svg::attribute("stroke", svg::colour(palette::ruler_mark)) +
               svg::attribute("stroke-width", 0.7) + "/>\n";
    }
    return "<rect" + svg::attribute("x", x - r) + svg::attribute("y", y - r) +
           svg::attribute("width", 2.0 * r) + svg::attribute("height", 2.0 * r) +
           svg::attribute("fill", svg::colour(palette::row_ridge)) + svg::attribute("stroke", ink) +
           svg::attribute("stroke-width", 0.3) + "/>\n";
}

/// One gauge with its interval and what it is of. Gauges of one hook stand beside each other.
std::string gauge_svg(const HookGauge& gauge, const Axes& axes, double aside, const Catalog& catalog,
                      const TextOptions& options) {
    const Measured stitches = over_span(gauge.stitches_per_10cm, options.units);
    const double x = axes.x(*gauge.kind.hook_mm) + aside;
    return "<g><title>" +
           svg::escaped(hook_text(gauge.kind.hook_mm) + ", " +
                        stitch_text(gauge.kind, catalog, options.terms) + ", " +
                        state_text(gauge.kind.state)) +
           "</title>" + svg::line(x, axes.y(stitches.low95()), x, axes.y(stitches.high95()), ink, 0.4) +
           mark_svg(x, axes.y(stitches.value), gauge) + "</g>\n";
}

std::string legend_svg() {
    HookGauge washed;
    washed.kind.state = FabricState::washed;
    const double y = height - 6.0;
    return mark_svg(left, y, {}) + svg::text(left + 4.0, y + 1.3, small_text, "unwashed, or not told") +
           mark_svg(left + 52.0, y, washed) + svg::text(left + 56.0, y + 1.3, small_text, "washed") +
           svg::text(left + 78.0, y + 1.3, small_text, "lines: 95 % intervals");
}

}  // namespace

std::string gauge_plot_text(const std::vector<HookGauge>& gauges, SizeUnit units) {
    if (gauges.empty()) return {};
    const PlotAxis axis = plot_axis(ends_of_intervals(gauges, units), 7);
    std::string text =
        "  hook        stitches over " + span_text(units) + " (o: unwashed or not told, #: washed)\n";
    text += scale_lines(axis);
    for (const auto& gauge : gauges) text += gauge_line_of_plot(gauge, axis, units);
    return text;
}

std::string gauge_plot_svg(const std::string& title, const std::vector<HookGauge>& gauges,
                           const Catalog& catalog, const TextOptions& options) {
    std::vector<HookGauge> on_hooks;
    std::copy_if(gauges.begin(), gauges.end(), std::back_inserter(on_hooks),
                 [](const HookGauge& gauge) { return gauge.kind.hook_mm.has_value(); });
    std::string content =
        svg::text(left, 9.0, 5.0, shortened(one_line(title), 60), svg::Anchor::start, "bold");
    if (on_hooks.empty()) {
        return svg::document_mm(
            width, height,
            content + svg::text(left, 30.0, small_text, "No gauge of a known hook was measured."));
    }
    std::vector<double> hooks;
    for (const auto& gauge : on_hooks) hooks.push_back(*gauge.kind.hook_mm);
    const Axes axes{plot_axis(hooks, 9), plot_axis(ends_of_intervals(on_hooks, options.units), 8)};
    content += grid_svg(axes, span_text(options.units));
    double aside = 0.0;
    for (std::size_t i = 0; i < on_hooks.size(); ++i) {
        const bool same_hook = i > 0 && hooks[i] == hooks[i - 1];
        aside = same_hook ? aside + 3.5 : 0.0;
        content += gauge_svg(on_hooks[i], axes, aside, catalog, options);
    }
    return svg::document_mm(width, height, content + legend_svg());
}

}  // namespace ridgetally
