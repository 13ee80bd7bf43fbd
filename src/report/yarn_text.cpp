#include "report/yarn_text.h"

#include <cmath>

#include "core/units.h"
#include "report/figures.h"
#include "report/one_line.h"
#include "report/phrases.h"
#include "report/table.h"
#include "report/wrap.h"
#include "report/yarn_plot.h"
#include "report/yarn_words.h"
#include "yarns/from_report.h"
#include "yarns/response.h"

namespace ridgetally {
namespace {

// So that a line of the table of stock fits into 80 columns for most yarns.
constexpr std::size_t name_columns = 34;
constexpr std::size_t colour_columns = 14;

std::string told_line(const std::string& label, const std::string& text) {
    return text.empty() ? text : paragraph(label, text);
}

std::string kind_of_yarn(const Yarn& yarn, const Catalog& catalog) {
    std::string text;
    const auto add = [&](const std::string& part) {
        text += (text.empty() || part.empty() ? "" : "; ") + part;
    };
    add(weight_text(yarn, catalog));
    add(one_line(yarn.fibre));
    if (!yarn.colour.empty()) add("colour " + one_line(yarn.colour));
    if (!yarn.dye_lot.empty()) add("dye lot " + one_line(yarn.dye_lot));
    return text;
}

std::string ball_text(const Yarn& yarn) {
    std::string text;
    if (yarn.ball_g) text = plain_number(*yarn.ball_g) + " g";
    if (yarn.ball_m) text += (text.empty() ? "" : ", ") + plain_number(*yarn.ball_m) + " m";
    return text;
}

std::string band_text(const BandGauge& band) {
    if (!band.stitches) return {};
    const bool crochet = band.craft == Craft::crochet;
    std::string text = plain_number(*band.stitches) + " stitches";
    if (band.rows) text += " and " + plain_number(*band.rows) + " rows";
    text += std::string(" of ") + (crochet ? "crochet" : "knitting") + " over " +
            plain_number(*band.span_mm / 10.0) + " cm";
    if (band.tool_mm) text += " on a " + plain_number(*band.tool_mm) + " mm " + (crochet ? "hook" : "needle");
    return text + (crochet ? "" : " (no target for crochet, which takes fewer stitches)");
}

std::string numbers_text(const std::vector<std::int64_t>& numbers) {
    std::string text;
    for (const auto number : numbers) text += (text.empty() ? "" : ", ") + std::to_string(number);
    return text;
}

std::string gauge_table(const std::vector<HookGauge>& gauges, const Catalog& catalog,
                        const TextOptions& options) {
    std::vector<std::vector<Cell>> rows;
    for (const auto& gauge : gauges) {
        const auto& r = gauge.rows_per_10cm;
        rows.push_back({hook_text(gauge.kind.hook_mm), stitch_text(gauge.kind, catalog, options.terms),
                        state_text(gauge.kind.state),
                        with_plus_minus(over_span(gauge.stitches_per_10cm, options.units), 1),
                        r ? Cell(with_plus_minus(over_span(*r, options.units), 1)) : Cell(),
                        numbers_text(gauge.numbers)});
    }
    return "Gauge by hook, over " + span_text(options.units) + ":\n" +
           columns_text({"hook", "stitch", "state", "stitches", "rows", "numbers"}, rows) +
           "  (a mean of the swatches of the same kind; \u00B1 is a 95 % interval)\n";
}

/// "5 % ± 4 % fewer stitches"; where nothing is seen beyond the interval, that.
std::string change_phrase(const Measured& change, const std::string& what) {
    const double percent = 100.0;
    const bool seen = change.low95() > 0.0 || change.high95() < 0.0;
    const Measured size{std::abs(change.value) * percent, change.std * percent, {}};
    const std::string figure = fixed(size.value, 1) + " % \u00B1 " + half_width(size, 1) + " %";
    if (!seen)
        return "no sure change of the " + what + " (" + (change.value < 0.0 ? "-" : "+") + figure + ")";
    return figure + (change.value < 0.0 ? " fewer " : " more ") + what;
}

std::string washing_text(const std::vector<HookGauge>& gauges, const Catalog& catalog,
                         const TextOptions& options) {
    std::string text;
    for (const auto& change : washing_changes(gauges)) {
        std::string phrase = change_phrase(change.stitches, "stitches");
        if (change.rows) phrase += "; " + change_phrase(*change.rows, "rows");
        text += paragraph("  - ", hook_text(change.unwashed.hook_mm) + ", " +
                                      stitch_text(change.unwashed, catalog, options.terms) + ", against " +
                                      state_text(change.unwashed.state) + ": " + phrase + ".");
    }
    return text.empty() ? text : "\nWashed:\n" + text;
}

std::string response_text(const std::vector<HookGauge>& gauges, const Catalog& catalog,
                          const TextOptions& options) {
    std::string text;
    for (const auto& series : response_series(gauges)) {
        const HookRecord rest{{series.points.begin() + 1, series.points.end()}, {}, {}};
        const HookResponse response = learn_response(series.points.front(), rest, catalog.hook_practice);
        text += paragraph(
            "  - ", stitch_text(series.kind, catalog, options.terms) + ", " + state_text(series.kind.state) +
                        ": stitch width grows as hook^" + with_plus_minus(response.exponent, 2) + ", from " +
                        std::to_string(response.hooks_of_this_yarn) + " hooks and what is usual.");
    }
    return text.empty() ? text : "\nHow your stitches follow the hook:\n" + text;
}

std::string pattern_lines(const std::vector<HookGauge>& gauges, const Catalog& catalog,
                          const TextOptions& options) {
    std::string text = "\nFor the pattern:\n";
    for (const auto& gauge : gauges) {
        const GaugeOfFabric pattern{gauge.kind.stitch, gauge.kind.worked, gauge.stitches_per_10cm,
                                    gauge.rows_per_10cm};
        text += "  " + gauge_line(pattern, catalog, options) + ", hook " + hook_text(gauge.kind.hook_mm);
        if (gauge.kind.state) text += ", " + state_text(gauge.kind.state);
        text += "\n";
    }
    return text;
}

std::string size_of(const Measurement& m, SizeUnit units) {
    const auto length = [&](double mm) {
        return fixed(units == SizeUnit::cm ? mm / 10.0 : mm / mm_per_inch, 1);
    };
    const std::string unit = units == SizeUnit::cm ? " cm" : " in";
    if (m.diameter_mm) return length(*m.diameter_mm) + unit + " across";
    if (m.width_mm && m.height_mm) return length(*m.width_mm) + " x " + length(*m.height_mm) + unit;
    return {};
}

/// "scale, area": what was set by hand, as its report says.
std::string by_hand(const Measurement& measurement) {
    std::string list;
    for (const auto& what : corrected_of(measurement)) list += (list.empty() ? "" : ", ") + one_line(what);
    return list;
}

std::string measurement_lines(const YarnView& view, const Catalog& catalog, const TextOptions& options) {
    std::vector<std::string> headings = {"number", "day", "what", "hook", "stitch", "state", "size", "photo"};
    std::vector<std::vector<Cell>> rows;
    std::vector<Cell> corrections;
    for (const auto& [number, m] : view.measurements) {
        std::string size = size_of(m, options.units);
        if (m.mass_g) size += (size.empty() ? "" : ", ") + plain_number(*m.mass_g) + " g";
        rows.push_back({static_cast<double>(number), m.taken, std::string(key_of(m.kind)),
                        hook_text(m.hook_mm), stitch_text(kind_of(m), catalog, options.terms),
                        state_text(m.state), size.empty() ? Cell() : Cell(size),
                        shortened(one_line(m.photo_file), name_columns)});
        corrections.emplace_back(by_hand(m));
    }
    // A column of its own only where anything was set by hand.
    if (std::any_of(corrections.begin(), corrections.end(),
                    [](const Cell& cell) { return cell != Cell(""); })) {
        headings.emplace_back("set by hand");
        for (std::size_t i = 0; i < rows.size(); ++i) rows[i].push_back(corrections[i]);
    }
    return "\nMeasured:\n" + columns_text(headings, rows);
}

}  // namespace

std::string stock_text(const std::vector<StockLine>& stock, const Catalog& catalog) {
    if (stock.empty()) return "No yarn is in the record yet. Put one in with: ridgetally yarn add NAME\n";
    std::vector<std::vector<Cell>> rows;
    for (const auto& [yarn, measurements] : stock) {
        rows.push_back({shortened(one_line(yarn.name), name_columns), weight_text(yarn, catalog),
                        shortened(one_line(yarn.colour), colour_columns), left_text(yarn),
                        static_cast<double>(measurements)});
    }
    return columns_text({"yarn", "weight", "colour", "left", "measured"}, rows);
}

std::string yarn_text(const YarnView& view, const Catalog& catalog, const TextOptions& options) {
    const Yarn& yarn = view.yarn;
    std::string text = one_line(yarn.name) + "\n";
    text += told_line("  ", kind_of_yarn(yarn, catalog));
    text += told_line("  One ball:   ", ball_text(yarn));
    text += told_line("  Left:       ", left_text(yarn));
    text += told_line("  Ball band:  ", band_text(yarn.band));
    text += told_line("  Notes:      ", one_line(yarn.notes));
    text += told_line("  In since:   ", yarn.added);
    if (view.measurements.empty()) {
        return text +
               "\nNothing was measured of it yet. Do so with:\n"
               "  ridgetally swatch PHOTO --hook 5mm --save NAME\n";
    }
    const auto gauges = gauge_by_hook(view.measurements);
    if (!gauges.empty()) {
        text += "\n" + gauge_table(gauges, catalog, options) + "\n" + gauge_plot_text(gauges, options.units);
        text += washing_text(gauges, catalog, options) + response_text(gauges, catalog, options) +
                pattern_lines(gauges, catalog, options);
    }
    return text + measurement_lines(view, catalog, options);
}

std::string check_text(const RecordCheck& check, const std::string& file) {
    std::string text = file + "\n  " + counted(check.yarns, "yarn") + ", " +
                       counted(check.measurements, "measurement") + "; " + std::to_string(check.removed) +
                       " more removed, which can come back\n";
    for (const auto& fault : check.faults) text += paragraph("  fault: ", one_line(fault));
    for (const auto& note : check.notes) text += paragraph("  note: ", note);
    return text + (check.faults.empty() ? "  the record is sound\n" : "");
}

}  // namespace ridgetally
