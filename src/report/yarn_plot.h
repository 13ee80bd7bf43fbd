#pragma once

#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "report/drawing.h"
#include "report/text.h"
#include "yarns/gauge_by_hook.h"

/// Gauge over hook as pictures. Washed and unwashed swatches have marks of another form, not of another
/// colour alone.
namespace ridgetally {

/// A plot for a terminal of 80 columns: one line a gauge, stitches over 10 cm or 4 in to the right, "o" the
/// value, "#" of washed fabric, with the 95 % interval about it. Empty where there is nothing to plot.
[[nodiscard]] std::string gauge_plot_text(const std::vector<HookGauge>& gauges, SizeUnit units);

/// The same to be had as SVG or pixels: hooks to the right, stitches upwards, 160 by 110 mm. Gauges whose
/// hook was not told are left out.
[[nodiscard]] Drawing gauge_plot(const std::string& title, const std::vector<HookGauge>& gauges,
                                 const Catalog& catalog, const TextOptions& options);

/// Whether the fabric was washed, which the plots show by the mark.
[[nodiscard]] bool is_washed(const HookGauge& gauge);

/// Both ends of the 95 % interval of every gauge, over the span of `units`: what an axis must hold.
[[nodiscard]] std::vector<double> ends_of_intervals(const std::vector<HookGauge>& gauges, SizeUnit units);

}  // namespace ridgetally
