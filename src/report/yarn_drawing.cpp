#include <algorithm>

#include "report/drawing.h"
#include "report/one_line.h"
#include "report/plot_axis.h"
#include "report/table.h"
#include "report/wrap.h"
#include "report/yarn_plot.h"
#include "report/yarn_words.h"

namespace ridgetally {
namespace {

// Millimetres of the drawing.
constexpr double width = 160.0;
constexpr double height = 110.0;
constexpr double left = 16.0;
constexpr double right = width - 8.0;
constexpr double top = 21.0;
constexpr double bottom = height - 24.0;
constexpr double margin = 9.0;  // beside the first and the last hook, for gauges that stand beside each other
constexpr double beside = 3.5;  // from one gauge of a hook to the next
constexpr double small_text = 3.6;
constexpr double label_room = 8.0;  // what the longest hook, "12.75", takes with a gap
const cv::Scalar grid{0xd5, 0xd5, 0xd5};

struct Axes {
    PlotAxis hook_mm;
    PlotAxis stitches;
    [[nodiscard]] double x(double mm) const {
        return left + margin + hook_mm.place(mm) * (right - left - 2.0 * margin);
    }
    [[nodiscard]] double y(double count) const { return bottom - stitches.place(count) * (bottom - top); }
};

/// An axis that is marked at the hooks that were used; one hook alone stands in the middle.
PlotAxis hook_axis(std::vector<double> hooks_mm) {
    hooks_mm.erase(std::unique(hooks_mm.begin(), hooks_mm.end()), hooks_mm.end());
    if (hooks_mm.size() == 1) return {hooks_mm.front() - 1.0, hooks_mm.front() + 1.0, hooks_mm};
    return {hooks_mm.front(), hooks_mm.back(), hooks_mm};
}

void add_grid(Drawing& drawing, const Axes& axes, const std::string& span) {
    auto& parts = drawing.parts;
    double labelled_to = 0.0;
    for (const double mm : axes.hook_mm.marks) {
        const double x = axes.x(mm);
        parts.emplace_back(DrawnLine{x, top, x, bottom, grid, 0.2});
        if (x - labelled_to < label_room) continue;
        parts.emplace_back(DrawnText{x, bottom + 5.0, small_text, plain_number(mm), svg::Anchor::middle});
        labelled_to = x;
    }
    for (const double count : axes.stitches.marks) {
        const double y = axes.y(count);
        parts.emplace_back(DrawnLine{left, y, right, y, grid, 0.2});
        parts.emplace_back(DrawnText{left - 2.0, y + 1.3, small_text, plain_number(count), svg::Anchor::end});
    }
    parts.emplace_back(
        DrawnText{(left + right) / 2.0, bottom + 11.0, small_text, "hook, mm", svg::Anchor::middle});
    parts.emplace_back(DrawnText{left, top - 4.5, small_text, "stitches over " + span});
}

DrawnMark mark_at(double x, double y, const HookGauge& gauge) {
    return {x, y, is_washed(gauge) ? MarkForm::square : MarkForm::ring, {}};
}

/// One gauge with its interval and what it is of.
void add_gauge(Drawing& drawing, const HookGauge& gauge, const Axes& axes, double x, const Catalog& catalog,
               const TextOptions& options) {
    const Measured stitches = over_span(gauge.stitches_per_10cm, options.units);
    drawing.parts.emplace_back(
        DrawnLine{x, axes.y(stitches.low95()), x, axes.y(stitches.high95()), drawing_ink, 0.4});
    DrawnMark mark = mark_at(x, axes.y(stitches.value), gauge);
    mark.title = hook_text(gauge.kind.hook_mm) + ", " + stitch_text(gauge.kind, catalog, options.terms) +
                 ", " + state_text(gauge.kind.state);
    drawing.parts.emplace_back(mark);
}

void add_legend(Drawing& drawing) {
    HookGauge washed;
    washed.kind.state = FabricState::washed;
    const double y = height - 6.0;
    auto& parts = drawing.parts;
    const auto add_words = [&](double x, const char* words) {
        parts.emplace_back(DrawnText{x, y + 1.3, small_text, words});
    };
    parts.emplace_back(mark_at(left, y, {}));
    add_words(left + 4.0, "unwashed, or not told");
    parts.emplace_back(mark_at(left + 52.0, y, washed));
    add_words(left + 56.0, "washed");
    add_words(left + 78.0, "lines: 95 % intervals");
}

}  // namespace

Drawing gauge_plot(const std::string& title, const std::vector<HookGauge>& gauges, const Catalog& catalog,
                   const TextOptions& options) {
    std::vector<HookGauge> on_hooks;
    std::copy_if(gauges.begin(), gauges.end(), std::back_inserter(on_hooks),
                 [](const HookGauge& gauge) { return gauge.kind.hook_mm.has_value(); });
    Drawing drawing{width, height, {}};
    drawing.parts.emplace_back(
        DrawnText{left, 9.0, 5.0, shortened(one_line(title), 60), svg::Anchor::start, "bold"});
    if (on_hooks.empty()) {
        drawing.parts.emplace_back(
            DrawnText{left, 30.0, small_text, "No gauge of a known hook was measured."});
        return drawing;
    }
    std::vector<double> hooks;
    hooks.reserve(on_hooks.size());
    for (const auto& gauge : on_hooks) hooks.push_back(*gauge.kind.hook_mm);
    const Axes axes{hook_axis(hooks), plot_axis(ends_of_intervals(on_hooks, options.units), 8)};
    add_grid(drawing, axes, span_text(options.units));
    double aside = 0.0;
    for (std::size_t i = 0; i < on_hooks.size(); ++i) {
        const bool same_hook = i > 0 && hooks[i] == hooks[i - 1];
        aside = same_hook ? aside + beside : 0.0;
        add_gauge(drawing, on_hooks[i], axes, axes.x(hooks[i]) + aside, catalog, options);
    }
    add_legend(drawing);
    return drawing;
}

}  // namespace ridgetally
