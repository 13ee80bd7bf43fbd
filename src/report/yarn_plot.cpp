#include "report/yarn_plot.h"

#include <algorithm>
#include <cmath>

#include "report/plot_axis.h"
#include "report/table.h"
#include "report/wrap.h"
#include "report/yarn_words.h"

namespace ridgetally {
namespace {

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

}  // namespace

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

std::string gauge_plot_text(const std::vector<HookGauge>& gauges, SizeUnit units) {
    if (gauges.empty()) return {};
    const PlotAxis axis = plot_axis(ends_of_intervals(gauges, units), 7);
    std::string text =
        "  hook        stitches over " + span_text(units) + " (o: unwashed or not told, #: washed)\n";
    text += scale_lines(axis);
    for (const auto& gauge : gauges) text += gauge_line_of_plot(gauge, axis, units);
    return text;
}

}  // namespace ridgetally
